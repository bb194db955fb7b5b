// What of the sheet is printed, and on which day. Without this script everything is printed and the day is written in by hand.
(function () {
  "use strict";

  var sheet = document.querySelector("article.sheet");
  var form = sheet && sheet.querySelector("form.print-choice");
  if (!sheet) { return; }

  function today() {
    var now = new Date();
    function two(number) { return (number < 10 ? "0" : "") + number; }
    return now.getFullYear() + "-" + two(now.getMonth() + 1) + "-" + two(now.getDate());
  }

  function date() {
    sheet.querySelectorAll(".print-date").forEach(function (place) { place.textContent = today(); });
  }

  date();
  window.addEventListener("beforeprint", date); // a sheet may stand open overnight
  if (!form) { return; }

  var choice = form.querySelector("select");

  function choose() {
    Array.prototype.forEach.call(choice.options, function (option) {
      if (option.value) { sheet.classList.toggle(option.value, option.selected); }
    });
  }

  choice.addEventListener("change", choose);
  form.addEventListener("submit", function (event) {
    event.preventDefault();
    window.print();
  });
  window.addEventListener("pageshow", choose); // "back" may bring an earlier choice with it
  choose();
  form.hidden = false;
})();
