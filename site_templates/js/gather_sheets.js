// The page of a set: takes the sheets that the address names, one after the other, into this page, to be printed as
// one. The address is "#" and the sheets' addresses with "&" between; only those of the table of jobs are opened.
(function () {
  "use strict";

  var say = window.setupSheet.say, sayCount = window.setupSheet.sayCount;
  var PATIENCE = 2000; // ms that a sheet, once loaded, has to give itself

  var set = document.querySelector(".sheet-set");
  var tools = document.querySelector(".set-tools");
  var said = document.getElementById("set-said");
  var lacking = document.getElementById("set-lacking");
  var names = {}; // address -> number and title of the job

  var wanted = location.hash.slice(1).split("&").filter(function (address, at, every) {
    return address && every.indexOf(address) === at;
  });
  var numbers = []; // of the sheets that are here

  function missing(address, why) {
    var line = document.createElement("li"), link = document.createElement("a");
    var name = names[address];
    if (name) {
      link.textContent = name.join(" ");
      link.href = address;
    }
    line.append(name ? link : address, ": " + why);
    lacking.querySelector("ul").append(line);
    lacking.hidden = false;
  }

  function take(address, html) {
    var given = new DOMParser().parseFromString(html, "text/html").querySelector("article.sheet");
    var sheet = document.importNode(given, true);
    numbers.push(names[address][0]);
    window.setupSheet.join(sheet, numbers.length);
    sheet.setAttribute("aria-label", say("Sheet of job {number}", { number: names[address][0] }));
    set.append(sheet);
  }

  function open(address, done) {
    var frame = document.createElement("iframe"), waiting;

    function end(html) {
      window.removeEventListener("message", heard);
      clearTimeout(waiting);
      frame.remove();
      if (html) { take(address, html); } else { missing(address, say("did not open as a sheet; open it by itself.")); }
      done();
    }

    function heard(event) {
      if (event.source === frame.contentWindow && event.data && typeof event.data.setupSheet === "string") {
        end(event.data.setupSheet);
      }
    }

    window.addEventListener("message", heard);
    frame.addEventListener("load", function () { waiting = setTimeout(end, PATIENCE); });
    frame.hidden = true;
    frame.name = "setup-sheet-for-a-set";
    frame.src = address;
    document.body.append(frame);
  }

  function ready() {
    var count = numbers.length;
    said.textContent = count ? sayCount("{count} sheet, ready to print: {numbers}.", "{count} sheets, ready to print: {numbers}.", count,
      { numbers: numbers.join(", ") }) : sayCount("{count} sheet.", "{count} sheets.", count);
    if (!count) { return; }
    document.title = say("Setup sheets {numbers}", { numbers: numbers.join(" ") }); // what the browser calls the printed file
    window.setupSheet.readyToPrint();
    tools.hidden = false;
  }

  function next(at) {
    if (at === wanted.length) { ready(); return; }
    if (!names[wanted[at]]) {
      missing(wanted[at], say("is not in the archive."));
      next(at + 1);
      return;
    }
    said.textContent = sayCount("Putting together {at} of {count} sheet: {number} …", "Putting together {at} of {count} sheets: {number} …",
      wanted.length, { at: at + 1, number: names[wanted[at]][0] });
    open(wanted[at], function () { next(at + 1); });
  }

  window.addEventListener("hashchange", function () { location.reload(); });
  if (!wanted.length) {
    said.textContent = say("No sheet is ticked. Tick jobs in the archive first.");
    return;
  }
  window.setupSheet.data.rowsAt(wanted).then(function (rows) {
    rows.forEach(function (row) { names[row.address] = [row.number, row.title]; });
    next(0);
  }, function (error) { said.textContent = error.message; });
})();
