// Jobs like this one: the fold on a sheet is filled when it is opened first. The jobs come from a small script, the
// only thing that a browser loads from disk, too; it lists those of the same size (without a thread, of the same
// material and holding), the newest year first. Text only ever enters the page as text.
(function () {
  "use strict";

  var COLUMNS = [
    "link", "number", "title", "thread", "pitch", "turns", "material", "held", "lathe", "year", "status", "learned"
  ]; // as generator/archive/alike.py writes them
  var TOP = "../../";
  var FIRST = 6, STEP = 12; // shown at once, and with every "more"

  var block = document.querySelector(".sheet > .alike");
  if (!block) { return; }
  var own = block.dataset, fold = block.querySelector("details"), asked = false;
  var said = element("p", ""), list = element("ol", ""), more = element("button", "Show more");
  said.setAttribute("role", "status");
  more.type = "button";
  more.hidden = true;
  fold.append(said, list, more);
  fold.hidden = false;

  function element(name, text) {
    var made = document.createElement(name);
    made.textContent = text;
    return made;
  }

  function named(row) {
    var job = {};
    COLUMNS.forEach(function (column, place) { job[column] = row[place]; });
    return job;
  }

  function place(address) {
    var path = new URL(address, location.href).pathname;
    try { return decodeURIComponent(path); } catch (error) { return path; }
  }

  function same(job, what) { return own[what] !== "" && job[what] === own[what]; }

  // The same thread stands before all else, the same material before the same holding; who shares all three is first.
  function rank(job) { return 4 * same(job, "turns") + 2 * same(job, "material") + same(job, "held"); }

  function why(job) {
    var shared = own.turns ? [same(job, "turns") ? "same thread" : "same size"] : [];
    if (same(job, "material")) { shared.push("same material"); }
    if (same(job, "held")) { shared.push("same holding"); }
    return shared.join(", ");
  }

  function line(job) {
    var item = document.createElement("li"), head = document.createElement("p"), link = element("a", job.number);
    var reason = element("p", why(job));
    link.href = TOP + job.link;
    head.append(link, " " + job.title);
    reason.className = "why";
    var thread = [job.thread, job.pitch].filter(Boolean).join(", ");
    var facts = [thread, job.material, job.held, job.lathe, job.year, job.status].filter(Boolean).join("; ");
    item.append(head, reason, element("p", facts));
    if (job.learned) { item.append(element("p", "Learned: " + job.learned)); }
    return item;
  }

  function show(data) {
    var here = place(location.href);
    var jobs = data.rows.map(named), others = jobs.filter(function (job) { return place(TOP + job.link) !== here; });
    others.sort(function (one, other) { return rank(other) - rank(one); }); // of equals the newest year stays first
    var size = own.turns ? " of this size" : own.material ? " of this material, held like this" : " held like this";
    said.textContent = !others.length ? "There is no other job" + size + " yet."
      : data.many > jobs.length ? "The newest " + jobs.length + " of " + data.many + " jobs" + size + ":"
        : others.length + (others.length === 1 ? " other job" : " other jobs") + size + ":";

    function add(count) {
      var from = list.children.length;
      list.append.apply(list, others.slice(from, from + count).map(line));
      more.hidden = list.children.length >= others.length;
      return list.children[from];
    }

    add(FIRST);
    more.addEventListener("click", function () { add(STEP).querySelector("a").focus(); });
  }

  fold.addEventListener("toggle", function () {
    if (!fold.open || asked) { return; }
    asked = true;
    var script = document.createElement("script");
    window.setupSheetData = function (name, data) { show(data); };
    script.src = own.from;
    script.addEventListener("error", function () {
      asked = false; // opened again, it is asked again
      script.remove();
      said.textContent = "The jobs could not be loaded (" + own.from.replace(TOP, "") + ").";
    });
    document.head.append(script);
  });
})();
