// The ticks of the archive: which sheets are to be printed as one set. They are kept in the browser for this folder of
// the site; where the browser keeps nothing they hold while the page is open, and the page says so.
(function () {
  "use strict";

  var tools = document.getElementById("jobs-ticks");
  if (!tools) { return; }

  var say = window.setupSheet.say;
  var KEY = "setup-sheet-ticks" + location.pathname.replace(/[^/]*$/, "");
  var said = document.getElementById("jobs-ticked"), lost = document.getElementById("jobs-ticks-lost");
  var table = document.getElementById("jobs-table");
  var buttons = {};
  tools.querySelectorAll("button").forEach(function (button) { buttons[button.dataset.does] = button; });

  var gone = new Set(); // addresses in the store that are none of a job
  var refused = false; // from then on the page alone knows the ticks
  var ticked = stored();

  function stored() {
    try {
      var list = JSON.parse(localStorage.getItem(KEY));
      return new Set(Array.isArray(list) ? list.filter(function (address) {
        return typeof address === "string" && !gone.has(address);
      }) : []);
    } catch (error) { return new Set(); } // no store, or not ours
  }

  function keep() {
    var text = JSON.stringify(Array.from(ticked));
    try {
      if (ticked.size) { localStorage.setItem(KEY, text); } else { localStorage.removeItem(KEY); }
      refused = (localStorage.getItem(KEY) || "[]") !== text;
    } catch (error) { refused = true; }
  }

  function change(edit) {
    if (!refused) { ticked = stored(); } // another tab may have ticked meanwhile
    edit();
    keep();
    show();
  }

  function boxes() { return Array.from(table.querySelectorAll("input[data-address]")); }

  function show() {
    var shown = boxes(), here = 0;
    shown.forEach(function (box) {
      box.checked = ticked.has(box.dataset.address);
      here += box.checked;
    });
    var away = ticked.size - here;
    said.textContent = away ? say("{ticked} ticked, {away} of them not shown here", { ticked: ticked.size, away: away })
      : say("{ticked} ticked", { ticked: ticked.size });
    buttons.all.disabled = here === shown.length;
    buttons.none.disabled = buttons.print.disabled = !ticked.size;
    lost.hidden = !refused;
  }

  // What is ticked in the archive's order; what is no longer a job's address loses its tick.
  function inOrder() {
    if (!ticked.size) { return Promise.resolve([]); }
    return window.setupSheet.data.rowsAt(ticked).then(function (rows) {
      var addresses = rows.map(function (row) { return row.address; });
      ticked.forEach(function (address) {
        if (!addresses.includes(address)) {
          gone.add(address);
          ticked.delete(address);
        }
      });
      return addresses;
    });
  }

  function box(address, number) {
    var label = document.createElement("label"), input = document.createElement("input");
    label.className = "archive-tick";
    input.type = "checkbox";
    input.autocomplete = "off";
    input.dataset.address = address;
    input.setAttribute("aria-label", say("Tick {number} to print it", { number: number }));
    label.append(input);
    return label;
  }

  table.addEventListener("change", function (event) {
    var address = event.target.dataset.address, on = event.target.checked;
    if (address) { change(function () { if (on) { ticked.add(address); } else { ticked.delete(address); } }); }
  });
  buttons.all.addEventListener("click", function () {
    change(function () { boxes().forEach(function (one) { ticked.add(one.dataset.address); }); });
  });
  buttons.none.addEventListener("click", function () { change(function () { ticked.clear(); }); });
  buttons.print.addEventListener("click", function () {
    inOrder().then(function (addresses) { location.href = tools.dataset.page + "#" + addresses.join("&"); });
  });

  function again() {
    if (!refused) { ticked = stored(); }
    return inOrder().catch(function () { /* the page says what could not be loaded */ }).then(show);
  }

  window.addEventListener("storage", function (event) { if (event.key === KEY || event.key === null) { again(); } });
  window.addEventListener("pageshow", again);

  again().then(function () { tools.hidden = false; });
  window.setupSheet = window.setupSheet || {};
  window.setupSheet.ticks = { box: box, show: show };
})();
