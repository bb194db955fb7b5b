// The archive page: what is typed and ticked becomes a choice, the choice an address, and the jobs it leaves are shown
// a few at a time. Text of a job only ever enters the page as text.
(function () {
  "use strict";

  var STEP = 25; // rows shown at a time
  var PAUSE = 80; // ms without a key before words are looked up
  var OPEN = ["kind", "lathe"]; // groups that are unfolded where there is room
  var KEY = "setup-sheet-search"; // "All jobs" on a sheet finds the choice as it was
  var WIDE = "(min-width: 60em)";

  var sheet = window.setupSheet, say = sheet.say, sayCount = sheet.sayCount, rules = sheet.choice, ticks = sheet.ticks;
  var form = document.getElementById("jobs-search");
  var words = document.getElementById("jobs-words"), written = document.getElementById("jobs-written");
  var sort = document.getElementById("jobs-sort");
  var from = document.getElementById("jobs-from"), to = document.getElementById("jobs-to");
  var sizes = document.getElementById("jobs-sizes");
  var narrow = document.getElementById("jobs-narrow"), place = document.getElementById("jobs-groups");
  var chips = document.getElementById("jobs-chips"), none = document.getElementById("jobs-none");
  var copy = document.getElementById("jobs-copy"), copied = document.getElementById("jobs-copied");
  var address = document.getElementById("jobs-address");
  var count = document.getElementById("jobs-count"), more = document.getElementById("jobs-more");
  var table = document.getElementById("jobs-table"), body = table.tBodies[0];

  var choice = rules.nothing();
  var jobs = []; // what the choice leaves, sorted
  var first = 0; // how many of them come first, because somebody wrote the words
  var archive = null;
  var asked = 0; // how often was asked: an answer that comes late is not shown
  var waiting;

  // -- the choice and its address ----------------------------------------------------------------------------

  function remember() {
    var hash = rules.toHash(choice);
    if (hash !== location.hash) { history.replaceState(null, "", hash || location.pathname + location.search); }
    try { sessionStorage.setItem(KEY, hash); } catch (error) { /* not allowed here */ }
  }

  function remembered() {
    try { return sessionStorage.getItem(KEY) || ""; } catch (error) { return ""; }
  }

  function take(hash) {
    choice = rules.fromHash(hash) || choice;
    words.value = choice.find;
    written.checked = choice.written;
    sort.value = choice.sort;
    from.value = choice.from;
    to.value = choice.to;
    return answer();
  }

  function changed() {
    choice.find = words.value;
    choice.written = written.checked;
    choice.sort = sort.value;
    choice.from = from.value;
    choice.to = to.value;
    remember();
    return answer();
  }

  function choose(name, value, on) {
    choice.chosen[name] = choice.chosen[name].filter(function (one) { return one !== value; });
    if (on) { choice.chosen[name].push(value); }
    changed();
  }

  // -- the answer --------------------------------------------------------------------------------------------

  function lookedAt() {
    return rules.FACETS.filter(function (name) { return choice.chosen[name].length || groupOf[name].fold.open; });
  }

  function answer() {
    var turn = asked += 1;
    clearTimeout(waiting);
    drawChips();
    drawSizes();
    return Promise.all([
      sheet.data.archive(), sheet.words.matching(choice.find),
      Promise.all(lookedAt().map(sheet.facets.facet))
    ]).then(function (read) {
      var left = sheet.facets.narrowed(read[0], read[2], choice, read[1]);
      return sheet.facets.sorted(left.jobs, choice.sort, read[1]).then(function (inOrder) {
        return sheet.data.rows(inOrder.slice(0, STEP)).then(function (rows) {
          if (turn !== asked) { return; }
          archive = read[0];
          jobs = inOrder;
          first = read[1] && choice.sort === rules.SORTS[0] ? inOrder.filter(function (job) {
            return read[1][job] & sheet.words.WRITTEN;
          }).length : 0;
          rules.FACETS.forEach(function (name) { groupOf[name].show(left.counts[name], choice.chosen[name]); });
          body.replaceChildren.apply(body, rows.map(tableRow));
          drawCount();
        });
      });
    }).catch(function (error) { if (turn === asked) { fail(error); } });
  }

  function fail(error) { count.textContent = error.message; }

  function drawCount() {
    more.hidden = body.rows.length >= jobs.length;
    table.hidden = !jobs.length;
    if (ticks) { ticks.show(); }
    count.textContent = !archive.count ? say("There are no jobs yet.")
      : jobs.length ? counted()
        : chips.children.length ? say("No job is left under this choice. Take something away.")
          : say("No job has all of these words. Take one away.");
  }

  function counted() {
    var found = jobs.length === archive.count ? sayCount("{count} job", "{count} jobs", archive.count)
      : sayCount("{left} of {count} job", "{left} of {count} jobs", archive.count, { left: jobs.length });
    return first && first < jobs.length
      ? say("{found}; first the {first} where somebody wrote it", { found: found, first: first }) : found;
  }

  // -- what is shown -----------------------------------------------------------------------------------------

  function year(job) {
    return archive.blocks.find(function (block) { return job < block.start + block.count; }).year;
  }

  var HEADINGS = {
    Number: say("Number"), Title: say("Title"), Thread: say("Thread"), Material: say("Material"), Lathe: say("Lathe"),
    Holding: say("Holding"), Year: say("Year"), Status: say("Status")
  };

  function tableRow(row) {
    function at(name) { return archive.columns[name].values[archive.columns[name].of[row.job]]; }
    var line = document.createElement("tr"), state = at("state");
    var cells = {
      Number: row.number, Title: row.title, Thread: at("thread")[0] || "", Material: at("material"),
      Lathe: at("lathe"), Holding: at("holding").join(", "), Year: year(row.job), Status: sheet.status(state[0])
    };
    Object.keys(cells).forEach(function (column) {
      var data = document.createElement("td");
      data.dataset.column = column;
      data.dataset.heading = HEADINGS[column];
      if (column === "Number") {
        var link = document.createElement("a");
        link.href = row.address;
        link.textContent = row.number;
        if (ticks) { data.append(ticks.box(row.address, row.number)); }
        data.append(link);
      } else {
        data.textContent = cells[column];
      }
      if (column === "Status" && !state[1]) { data.className = "archive-not-ready"; }
      line.append(data);
    });
    return line;
  }

  function chip(text, off) {
    var item = document.createElement("li"), button = document.createElement("button");
    button.type = "button";
    button.textContent = text;
    button.setAttribute("aria-label", say("Take off: {text}", { text: text }));
    button.addEventListener("click", function () {
      off();
      (chips.querySelector("button") || words).focus();
    });
    item.append(button);
    return item;
  }

  function drawChips() {
    var items = [];
    rules.FACETS.forEach(function (name) {
      choice.chosen[name].forEach(function (value) {
        items.push(chip(sheet.groups.LABELS[name] + ": " + sheet.groups.said(name, value),
          function () { choose(name, value, false); }));
      });
    });
    if (choice.from.trim() || choice.to.trim()) {
      var ends = { from: choice.from.trim() || say("any"), to: choice.to.trim() || say("any") };
      items.push(chip(say("Size: {from} to {to}", ends), function () {
        from.value = to.value = "";
        changed();
      }));
    }
    chips.replaceChildren.apply(chips, items);
    chips.hidden = !items.length;
    none.hidden = !items.length && !choice.find.trim();
    copied.textContent = "";
    address.hidden = true;
  }

  function drawSizes() {
    var said = [from, to].map(function (box) {
      if (!box.value.trim()) { return ""; }
      var mm = rules.size(box.value), clear = !isNaN(mm);
      box.setAttribute("aria-invalid", String(!clear));
      var end = {
        size: clear ? rules.bothUnits(mm) : say("“{typed}”: write 2 in, 1 1/2 or 50 mm", { typed: box.value.trim() })
      };
      return box === from ? say("from {size}", end) : say("to {size}", end);
    });
    sizes.textContent = said.filter(Boolean).join(", ");
  }

  // -- what is done ------------------------------------------------------------------------------------------

  var groupOf = {};
  rules.FACETS.forEach(function (name) {
    groupOf[name] = sheet.groups.group(place, name, function (value, on) { choose(name, value, on); }, answer);
  });
  narrow.open = window.matchMedia(WIDE).matches;
  OPEN.forEach(function (name) { groupOf[name].fold.open = narrow.open; });

  // The choice in the form's own boxes; not "change": it comes with the click on a row and would replace the row.
  function typed(event) {
    clearTimeout(waiting);
    waiting = setTimeout(changed, event.target === words ? PAUSE : 0);
  }
  form.addEventListener("input", typed);
  document.getElementById("jobs-size").addEventListener("input", typed);

  form.addEventListener("submit", function (event) {
    event.preventDefault();
    changed().then(function () {
      var first = body.querySelector("a");
      if (first && jobs.length === 1) { first.click(); }
    });
  });

  none.addEventListener("click", function () {
    take("").then(remember);
    words.focus();
  });

  more.addEventListener("click", function () {
    var before = body.rows.length, turn = asked;
    sheet.data.rows(jobs.slice(before, before + STEP)).then(function (rows) {
      if (turn !== asked || body.rows.length !== before) { return; }
      body.append.apply(body, rows.map(tableRow));
      drawCount();
      body.rows[before].querySelector("a").focus();
    }).catch(fail);
  });

  copy.addEventListener("click", function () {
    function byHand() { // where the page may not write to the clipboard, as on a shop's own server
      address.hidden = false;
      address.value = location.href;
      address.select();
      copied.textContent = say("Copy it from here.");
    }
    remember();
    if (!navigator.clipboard) { byHand(); return; }
    navigator.clipboard.writeText(location.href).then(function () { copied.textContent = say("Copied."); }, byHand);
  });

  window.addEventListener("hashchange", function () { take(location.hash).then(remember); });

  form.hidden = narrow.hidden = copy.hidden = false;
  take(location.hash || remembered()).then(remember);
})();
