// The block "At the machine": what was written, as a piece of log.yml to copy or to save, what an earlier plan
// left, and that entries are not kept, where they are not.
(function () {
  "use strict";

  var ours = window.setupSheet, page = ours && ours.page;
  if (!page) { return; }
  var say = ours.say, sayCount = ours.sayCount;
  var kept = page.kept, section = page.section, entries = page.data.entries;
  var text = section.querySelector("textarea"), count = section.querySelector("[data-count]");
  var every = section.querySelector("[data-all]"), word = section.querySelector(".done-word");
  var notKept = page.sheet.querySelectorAll("[data-not-kept]"); // a dialog that is open covers the block
  var changed = section.querySelector(".changed");
  var earlier = section.querySelector(".earlier"), sure = section.querySelector(".sure");

  var newest = 0; // time of the last entry in the piece

  function isEarlier(entry) {
    return entry.revision !== kept.revision || (entry.what.takes !== "record" && !entries[entry.id]);
  }

  function says(entry) { return ours.log.says(entry) !== null; }

  function wanted(all) {
    var since = every.checked ? 0 : kept.remembered("taken") || 0;
    return all.filter(function (entry) {
      return entry.time > since || entry.held || (entry.what.takes === "by" && all.some(function (other) {
        return other.id === entry.what.of && other.time > since;
      }));
    });
  }

  function lineOf(entry) {
    var line = document.createElement("li");
    var about = {
      when: ours.log.when(entry.time), revision: entry.revision, label: entry.what.label, stood: entry.what.stood,
      value: entry.value === true ? say("ticked") : entry.value
    };
    line.textContent = about.stood ? say("{when}, revision {revision}: {label} (planned then: {stood}): {value}", about)
      : say("{when}, revision {revision}: {label}: {value}", about);
    return line;
  }

  function show() {
    var all = kept.all();
    all.forEach(function (entry) { entry.earlier = isEarlier(entry); });
    var full = all.filter(says), piece = wanted(all), old = full.filter(function (entry) { return entry.earlier; });
    text.value = ours.log.text(piece);
    newest = all.length ? all[all.length - 1].time : 0;
    var fresh = piece.filter(says).length;
    count.textContent = !full.length ? say("nothing yet")
      : fresh === full.length ? sayCount("{count} entry", "{count} entries", full.length)
        : sayCount("{count} entry, {fresh} of them not taken out yet", "{count} entries, {fresh} of them not taken out yet",
          full.length, { fresh: fresh });
    earlier.hidden = !old.length;
    earlier.querySelector("ul").replaceChildren.apply(earlier.querySelector("ul"), old.map(lineOf));
    var said = old.length ? sayCount(
      "The plan has changed since {count} entry was made. They are kept below, under “Written on this page”, and stand in no field.",
      "The plan has changed since {count} entries were made. They are kept below, under “Written on this page”, and stand in no field.",
      old.length
    ) : "";
    changed.hidden = !said;
    if (changed.textContent !== said) { changed.textContent = said; }
    var why = kept.trouble || (Object.keys(kept.held).length ? say("The browser did not take all of them.") : "");
    Array.prototype.forEach.call(notKept, function (notice) {
      var span = notice.querySelector("[data-why]");
      notice.hidden = !why;
      if (span.textContent !== why) { span.textContent = why; }
    });
    return piece;
  }

  function takenOut(said) {
    kept.remember("taken", newest);
    word.textContent = said;
  }

  function byHand() {
    text.focus();
    text.select();
    try { if (document.execCommand("copy")) { return true; } } catch (error) { /* said below */ }
    return false;
  }

  function copy() {
    var piece = text.value;
    if (!piece) { word.textContent = say("There is nothing to copy."); return; }
    var done = function () { takenOut(say("Copied.")); };
    var otherwise = function () {
      if (byHand()) { done(); return; }
      word.textContent = say("This browser does not copy by itself. The text is marked: copy it by hand.");
    };
    try {
      navigator.clipboard.writeText(piece).then(done, otherwise);
    } catch (error) { otherwise(); }
  }

  function save() {
    if (!text.value) { word.textContent = say("There is nothing to save."); return; }
    var link = document.createElement("a");
    var address = URL.createObjectURL(new Blob([text.value], { type: "application/yaml;charset=utf-8" }));
    link.href = address;
    link.download = page.data.job.replace(/[^A-Za-z0-9._-]+/g, "-") + "-log.yml";
    section.append(link);
    link.click();
    link.remove();
    setTimeout(function () { URL.revokeObjectURL(address); }, 60000);
    takenOut(say("Saved as {name}.", { name: link.download }));
  }

  section.querySelector("[data-copy]").addEventListener("click", copy);
  section.querySelector("[data-save]").addEventListener("click", save);
  every.addEventListener("change", show);
  section.querySelector("details.written").addEventListener("toggle", function () { word.textContent = ""; show(); });
  var clear = section.querySelector("[data-clear]");
  clear.addEventListener("click", function () {
    sure.hidden = false;
    sure.querySelector("[data-clear-no]").focus();
  });
  sure.querySelector("[data-clear-no]").addEventListener("click", function () { sure.hidden = true; clear.focus(); });
  sure.querySelector("[data-clear-yes]").addEventListener("click", function () {
    kept.clear();
    sure.hidden = true;
    clear.focus();
  });
  kept.listen(show);
  show();
})();
