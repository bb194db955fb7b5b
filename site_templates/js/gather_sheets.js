// The page of a set: takes the sheets that the address names, one after the other, into this page, to be printed as
// one. The address is "#" and the sheets' addresses with "&" between; only those of the table of jobs are opened.
(function () {
  "use strict";

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

  function many(count) { return count + (count === 1 ? " sheet" : " sheets"); }

  function take(address, html) {
    var given = new DOMParser().parseFromString(html, "text/html").querySelector("article.sheet");
    var sheet = document.importNode(given, true);
    numbers.push(names[address][0]);
    window.setupSheet.join(sheet, numbers.length);
    sheet.setAttribute("aria-label", "Sheet of job " + names[address][0]);
    set.append(sheet);
  }

  function open(address, done) {
    var frame = document.createElement("iframe"), waiting;

    function end(html) {
      window.removeEventListener("message", heard);
      clearTimeout(waiting);
      frame.remove();
      if (html) { take(address, html); } else { missing(address, "did not open as a sheet; open it by itself."); }
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
    said.textContent = many(numbers.length) + (numbers.length ? ", ready to print: " + numbers.join(", ") + "." : ".");
    if (!numbers.length) { return; }
    document.title = "Setup sheets " + numbers.join(" "); // what the browser calls the printed file
    window.setupSheet.readyToPrint();
    tools.hidden = false;
  }

  function next(at) {
    if (at === wanted.length) { ready(); return; }
    if (!names[wanted[at]]) {
      missing(wanted[at], "is not in the archive.");
      next(at + 1);
      return;
    }
    said.textContent = "Putting together " + (at + 1) + " of " + many(wanted.length) + ": " + names[wanted[at]][0] + " …";
    open(wanted[at], function () { next(at + 1); });
  }

  window.addEventListener("hashchange", function () { location.reload(); });
  if (!wanted.length) {
    said.textContent = "No sheet is ticked. Tick jobs in the archive first.";
    return;
  }
  window.setupSheet.data.rowsAt(wanted).then(function (rows) {
    rows.forEach(function (row) { names[row.address] = [row.number, row.title]; });
    next(0);
  }, function (error) { said.textContent = error.message; });
})();
