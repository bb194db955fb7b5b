// What of the sheets on this page is printed, and on which day. Without this script everything is printed and the
// day is written in by hand.
(function () {
  "use strict";

  var form = document.querySelector("form.print-choice");
  var choice = form && form.querySelector("select");

  function all(what) { return document.querySelectorAll("article.sheet" + what); }

  function today() {
    var now = new Date();
    function two(number) { return (number < 10 ? "0" : "") + number; }
    return now.getFullYear() + "-" + two(now.getMonth() + 1) + "-" + two(now.getDate());
  }

  function date() { all(" .print-date").forEach(function (place) { place.textContent = today(); }); }

  function choose() {
    if (!choice) { return; }
    Array.prototype.forEach.call(choice.options, function (option) {
      if (option.value) {
        all("").forEach(function (sheet) { sheet.classList.toggle(option.value, option.selected); });
      }
    });
  }

  function ready() { date(); choose(); }

  ready();
  window.addEventListener("beforeprint", ready); // a sheet may stand open overnight
  window.addEventListener("pageshow", ready); // "back" may bring an earlier choice with it
  window.setupSheet = window.setupSheet || {};
  window.setupSheet.readyToPrint = ready;
  if (!form) { return; }

  choice.addEventListener("change", choose);
  form.addEventListener("submit", function (event) {
    event.preventDefault();
    window.print();
  });
  form.hidden = false;
})();
