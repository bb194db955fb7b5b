// The search of the archive page. The rows come from archive-index.js, a classic script, because a browser
// that opens the site from disk loads nothing else. Text only ever enters the page as text.
(function () {
  "use strict";

  var COLUMNS = ["number", "title", "thread", "material", "lathe", "holding", "year", "status"];
  var FIRST_COLUMN = 1; // a row is [address, the columns, ready, text to search]
  var READY = FIRST_COLUMN + COLUMNS.length;
  var STEP = 200; // rows shown at a time

  var form = document.getElementById("jobs-search");
  var table = document.getElementById("jobs-table");
  var body = table.tBodies[0];
  var count = document.getElementById("jobs-count");
  var more = document.getElementById("jobs-more");
  var words = document.getElementById("jobs-words");
  var selects = Array.prototype.slice.call(form.querySelectorAll("select"));
  var jobs = window.setupSheetJobs;
  var ticks = window.setupSheet && window.setupSheet.ticks;
  if (!jobs) {
    count.textContent = "The list of jobs (archive-index.js) could not be loaded.";
    return;
  }

  function fold(text) {
    return text.normalize("NFKD").replace(/[\u0300-\u036f]/g, "").toLowerCase();
  }

  var folded = jobs.map(function (row) { return fold(row.slice(FIRST_COLUMN).join(" ")); });
  var limit = STEP;

  function cell(row, column) { return row[FIRST_COLUMN + COLUMNS.indexOf(column)]; }

  function fillSelects() {
    selects.forEach(function (select) {
      var values = jobs.map(function (row) { return cell(row, select.dataset.column); });
      Array.from(new Set(values)).filter(Boolean).sort().forEach(function (value) {
        var option = document.createElement("option");
        option.textContent = value;
        option.value = value;
        select.append(option);
      });
    });
  }

  function matches() {
    var wanted = fold(words.value).split(/\s+/).filter(Boolean);
    var filters = selects.filter(function (select) { return select.value; });
    return jobs.filter(function (row, number) {
      return wanted.every(function (word) { return folded[number].indexOf(word) >= 0; }) &&
        filters.every(function (select) { return cell(row, select.dataset.column) === select.value; });
    });
  }

  function tableRow(row) {
    var line = document.createElement("tr");
    COLUMNS.forEach(function (column) {
      var data = document.createElement("td");
      data.dataset.heading = column.charAt(0).toUpperCase() + column.slice(1);
      var text = cell(row, column);
      if (column === "number") {
        var link = document.createElement("a");
        link.href = row[0];
        link.textContent = text;
        if (ticks) { data.append(ticks.box(row[0], text)); }
        data.append(link);
      } else {
        data.textContent = text;
      }
      if (column === "status" && row[READY] !== "yes") { data.className = "archive-not-ready"; }
      line.append(data);
    });
    return line;
  }

  function show() {
    var found = matches();
    body.replaceChildren.apply(body, found.slice(0, limit).map(tableRow));
    more.hidden = found.length <= limit;
    table.hidden = !found.length;
    if (ticks) { ticks.show(); }
    var all = jobs.length + (jobs.length === 1 ? " job" : " jobs");
    count.textContent = !jobs.length ? "There are no jobs yet."
      : found.length === jobs.length ? all
        : found.length ? found.length + " of " + all : "No job has all of these words. Take one away.";
  }

  function remember() {
    // "Back" from a sheet finds the search as it was.
    try { sessionStorage.setItem("setup-sheet-search", words.value); } catch (error) { /* not allowed here */ }
  }

  function changed() { limit = STEP; remember(); show(); }

  form.addEventListener("submit", function (event) {
    event.preventDefault();
    var first = body.querySelector("a");
    if (first && body.rows.length === 1) { first.click(); }
  });
  form.addEventListener("input", changed); // not "change": it comes with the click on a row and would replace the row
  more.addEventListener("click", function () {
    var before = body.rows.length;
    limit += STEP;
    show();
    body.rows[before].querySelector("a").focus();
  });

  // A sheet's link says what to look for: index.html#find=words. Nothing else of the address is used.
  function asked() {
    var found = /^#find=(.*)$/.exec(location.hash);
    try { return found ? decodeURIComponent(found[1]) : null; } catch (error) { return null; }
  }

  function askAgain() {
    if (asked() !== null) { words.value = asked(); changed(); }
  }

  fillSelects();
  try { words.value = sessionStorage.getItem("setup-sheet-search") || ""; } catch (error) { /* not allowed here */ }
  form.hidden = false;
  window.addEventListener("hashchange", askAgain);
  show();
  askAgain();
})();
