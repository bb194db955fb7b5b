// Jobs like this one: the fold on a sheet is filled when it is opened first. The jobs come from small scripts, the
// only thing that a browser loads from disk, too: those of the same size of thread, and those of the same material and
// holding, the newest year first. Text only ever enters the page as text.
(function () {
  "use strict";

  var say = window.setupSheet.say, sayCount = window.setupSheet.sayCount;
  var COLUMNS = [
    "link", "number", "title", "thread", "pitch", "turns", "material", "held", "lathe", "year", "status", "learned"
  ]; // as generator/archive/alike.py writes them
  var TOP = "../../";
  var FIRST = 6, STEP = 12; // shown at once, and with every "more"

  var block = document.querySelector(".sheet > .alike");
  if (!block) { return; }
  var own = block.dataset, fold = block.querySelector("details"), asked = false;
  var said = element("p", ""), list = element("ol", ""), more = element("button", say("Show more"));
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

  // The same thread stands before all else, then the size, the material, the holding; who shares all of it is first.
  function rank(job) {
    return 8 * same(job, "turns") * job.sized + 4 * job.sized + 2 * same(job, "material") + same(job, "held");
  }

  function why(job) {
    var shared = job.sized ? [same(job, "turns") ? say("same thread") : say("same size")] : [];
    if (same(job, "material")) { shared.push(say("same material")); }
    if (same(job, "held")) { shared.push(say("same holding")); }
    return shared.join(", ");
  }

  function line(job) {
    var item = document.createElement("li"), head = document.createElement("p"), link = element("a", job.number);
    var reason = element("p", why(job));
    link.href = TOP + job.link;
    head.append(link, " " + job.title);
    reason.className = "why";
    var thread = [job.thread, job.pitch].filter(Boolean).join(", ");
    var facts = [thread, job.material, job.held, job.lathe, job.year, window.setupSheet.status(job.status)].filter(Boolean).join("; ");
    item.append(head, reason, element("p", facts));
    if (job.learned) { item.append(element("p", say("Learned: {lesson}", { lesson: job.learned }))); }
    return item;
  }

  function likeness() {
    if (own.turns) {
      return own.material ? say("of this size, or of this material and held like this") : say("of this size, or held like this");
    }
    return own.material ? say("of this material and held like this") : say("held like this");
  }

  // `lists` are what the scripts brought: of the size first, where the sheet has a thread.
  function show(lists) {
    var met = new Set([place(location.href)]), others = [], left = 0;
    lists.forEach(function (data, number) {
      left += data.many - data.rows.length;
      data.rows.map(named).forEach(function (job) {
        var where = place(TOP + job.link);
        if (met.has(where)) { return; }
        met.add(where);
        job.sized = own.turns !== "" && number === 0 ? 1 : 0;
        others.push(job);
      });
    });
    others.sort(function (one, other) { return rank(other) - rank(one); }); // of equals the newest year stays first
    var like = { like: likeness() };
    said.textContent = !others.length ? say("There is no other job {like} yet.", like)
      : left > 0 ? sayCount("The newest: {count} other job {like}:", "The newest: {count} other jobs {like}:", others.length, like)
        : sayCount("{count} other job {like}:", "{count} other jobs {like}:", others.length, like);

    function add(count) {
      var from = list.children.length;
      list.append.apply(list, others.slice(from, from + count).map(line));
      more.hidden = list.children.length >= others.length;
      return list.children[from];
    }

    add(FIRST);
    more.addEventListener("click", function () { add(STEP).querySelector("a").focus(); });
  }

  function load(addresses, lists) {
    if (!addresses.length) { show(lists); return; }
    var script = document.createElement("script");
    window.setupSheetData = function (name, data) { lists.push(data); };
    script.src = addresses[0];
    script.addEventListener("load", function () { load(addresses.slice(1), lists); });
    script.addEventListener("error", function () {
      asked = false; // opened again, it is asked again
      script.remove();
      said.textContent = say("The jobs could not be loaded ({file}).", { file: addresses[0].replace(TOP, "") });
    });
    document.head.append(script);
  }

  fold.addEventListener("toggle", function () {
    if (!fold.open || asked) { return; }
    asked = true;
    load(own.from.split(" "), []);
  });
})();
