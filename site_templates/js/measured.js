// "I measured, or tried": what a reading says is left on the dials and in how many cuts, or what follows from what
// is felt. The last small cut is never ordered by the number alone: it comes after measuring again.
(function () {
  "use strict";

  var ours = window.setupSheet, page = ours && ours.page;
  var dialog = document.getElementById("measured");
  if (!page || !dialog) { return; }
  var say = ours.say, sayCount = ours.sayCount, figure = ours.figure;
  var sums = ours.sums, size = page.data.size;
  var form = dialog.querySelector("form");
  var what = form.querySelector("#measured-what"), pass = form.querySelector("#measured-pass");
  var reads = form.querySelector("#measured-reads"), with_ = form.querySelector("#measured-with");
  var feels = form.querySelector("#measured-feels"), turns = form.querySelector("#measured-turns");
  var where = form.querySelector("#measured-where");
  var verdict = form.querySelector("[data-verdict]"), why = form.querySelector(".answer [data-why]");
  var amounts = form.querySelector(".answer dl"), list = form.querySelector(".answer ol");
  var fits = Array.prototype.slice.call(form.querySelectorAll("[data-fit]"));
  var word = form.querySelector(".done-word");

  var MOST_TURNS = 1000, PLACES = { in: 2, mm: 1 };
  var TWICE = 2000, last = "", lastTime = 0; // ms

  function isFit() { return what.value === "fit"; }

  function way() {
    return size && size.readings.find(function (one) { return one.key === what.value; });
  }

  function fixed(number) { return figure(number, size.places) + " " + size.unit; }

  // Half divisions of a dial, as it reads, and counted: "0.0030 in, 3 divisions".
  function onDial(halves, division) {
    var whole = Math.floor(halves / 2), half = halves % 2 ? (whole ? " 1/2" : "1/2") : "";
    var counted = (whole || !half ? String(whole) : "") + half;
    return sayCount("{reads}, {counted} division", "{reads}, {counted} divisions", halves <= 2 ? 1 : 2, {
      reads: figure(halves * division / 2, size.dialPlaces) + " " + size.dialUnit, counted: counted
    });
  }

  function answer(head, text) {
    verdict.textContent = head;
    why.textContent = text;
  }

  function sentences(said) { return said.filter(Boolean).join(" "); }

  function lines(texts) {
    list.replaceChildren.apply(list, texts.map(function (text) {
      var line = document.createElement("li");
      line.textContent = text;
      return line;
    }));
    list.hidden = !texts.length;
  }

  function steps(cuts) {
    var before = cuts.slice(0, -1), last = cuts[cuts.length - 1], said = [];
    if (!cuts.length) {
      return [
        say("Less than half a division is left: a spring pass at the same reading."),
        say("Measure again, and try the mate or the gauge.")
      ];
    }
    before.forEach(function (cut) { said.push(say("On by {cut}.", { cut: onDial(cut, size.feedDivision) })); });
    if (before.length) { said.push(say("A spring pass at the same reading. Measure again, and write it in here.")); }
    var most = { cut: onDial(last, size.feedDivision) };
    said.push(before.length ? say("Only then, and only if that reading says so: the last small cut, no more than {cut}.", most)
      : say("One small cut, no more than {cut}.", most));
    said.push(say("A spring pass. Measure, and try the mate or the gauge: they decide."));
    return said;
  }

  function limits(read) {
    var least = read.least === null ? null : fixed(read.least), most = read.most === null ? null : fixed(read.most);
    if (least && most) { return say("Its limits: {least} to {most}.", { least: least, most: most }); }
    return least ? say("At least {least}.", { least: least }) : most ? say("At most {most}.", { most: most })
      : say("Aimed at: {size}.", { size: fixed(read.aim) });
  }

  function noSense(read, typed) {
    var slip = sums.slipIn(typed.size, read, size.unit === "in"), meant = { size: fixed(slip[1]) };
    answer(say("THAT CANNOT BE"), sentences([
      say("This thread reads from {bottom} to {top}.", { bottom: fixed(read.bottom), top: fixed(read.top) }),
      slip[0] === "" ? ""
        : slip[0] === "point" ? say("Was {size} meant?", meant)
          : slip[0] === "mm" ? say("That looks like millimeters: {size} meant?", meant)
            : say("That looks like inches: {size} meant?", meant),
      say("Look at the instrument again, and type it again.")
    ]));
  }

  function judgeSize() {
    var read = way(), typed = sums.readSize(reads.value, size.unit);
    if (typed.why !== undefined) {
      answer(typed.why ? say("NOT A SIZE") : "", typed.why);
      return;
    }
    var left = sums.leftToCut(typed.size, read, size.feed);
    if (left.means === "no sense") { noSense(read, typed); return; }
    var off = fixed(Math.abs(left.over));
    if (left.means === "past") {
      answer(read.inside ? say("OVER SIZE: STOP") : say("UNDER SIZE: STOP"), sentences([
        say("Cut nothing more: nothing puts metal back."), limits(read),
        say("Measure once more, cold and clean; write it down; ask before the part leaves the lathe.")
      ]));
      return;
    }
    if (left.means === "inside") {
      var most = { cut: onDial(Math.min(left.halves, size.feed.small), size.feedDivision) };
      answer(say("INSIDE ITS LIMITS"), sentences([
        limits(read), say("Cut nothing more by the number: try the mate or the gauge."),
        left.halves ? say("Is it still too tight, no more than {cut}, a spring pass, and try again.", most)
          : say("Is it still too tight, a spring pass at the same reading, and try again.")
      ]));
      return;
    }
    answer(say("{size} TO COME OFF", { size: off }), sentences([
      say("On the pitch diameter, to {size}.", { size: fixed(read.aim) }), limits(read)
    ]));
    amounts.hidden = false;
    amounts.querySelector("[data-slide]").textContent = size.slide === "compound" ? say("Left on the compound")
      : say("Left on the cross slide");
    amounts.querySelector("[data-on-slide]").textContent = onDial(left.halves, size.feedDivision);
    amounts.querySelector("[data-cross-line]").hidden = size.slide !== "compound";
    amounts.querySelector("[data-on-cross]").textContent = onDial(left.crossHalves, size.crossDivision);
    lines(steps(left.cuts));
  }

  function judge() {
    answer("", "");
    amounts.hidden = true;
    lines([]);
    fits.forEach(function (block, number) { block.hidden = !isFit() || number !== feels.selectedIndex; });
    if (isFit()) { judgeTurns(); } else { judgeSize(); }
  }

  function judgeTurns() {
    var count = sums.readSize(turns.value, page.data.unit).size;
    if (count > 0 && count < MOST_TURNS && page.data.lead) {
      answer("", sayCount(
        "{turns} turn is {length} of thread, from where it starts: look there.",
        "{turns} turns are {length} of thread, from where it starts: look there.", count,
        { turns: turns.value.trim(), length: figure(count * page.data.lead, PLACES[page.data.unit]) + " " + page.data.unit }
      ));
    }
  }

  function changedWhat() {
    Array.prototype.forEach.call(form.querySelectorAll("[data-shows]"), function (part) {
      part.hidden = (part.dataset.shows === "fit") !== isFit();
    });
    var read = way();
    if (read) { with_.value = read.with; }
    judge();
  }

  function refuse(input, said) {
    word.textContent = said;
    input.focus();
  }

  function makesSense() {
    var typed = sums.readSize(reads.value, size.unit);
    return typed.why === undefined && sums.leftToCut(typed.size, way(), size.feed).means !== "no sense";
  }

  function record() {
    var about = { takes: "record", operation: page.data.thread, pass: pass.value ? Number(pass.value) : 0 };
    if (isFit()) {
      var fit = page.data.fits[feels.selectedIndex];
      about.label = say("Tried: {felt}", { felt: feels.options[feels.selectedIndex].textContent });
      about.feels = fit.feels;
      about.turns = turns.value.trim();
      about.where = where.value.trim() || fit.where;
      return about;
    }
    var read = way(), typed = sums.readSize(reads.value, size.unit);
    about.label = read.label;
    about.size = read.key;
    about.text = typed.text || reads.value;
    about.unit = size.unit;
    about.with = with_.value.trim();
    return about;
  }

  function writeDown(event) {
    event.preventDefault();
    if (!isFit() && !makesSense()) { refuse(reads, say("Not written down. Type first what it reads.")); return; }
    var about = record(), said = JSON.stringify(about);
    if (said === last && Date.now() - lastTime < TWICE) { return; } // one touch that counted twice
    last = said;
    lastTime = Date.now();
    var id = "said-" + Date.now().toString(36) + "-" + Math.random().toString(36).slice(2, 8);
    page.kept.write(id, true, about, page.by());
    word.textContent = about.text
      ? say("Written down: {label} {size}.", { label: about.label, size: ours.figures(about.text) })
      : say("Written down: {label}.", { label: about.label });
  }

  dialog.addEventListener("opening", function (event) {
    var number = event.detail.dataset.pass;
    if (number !== undefined) { pass.value = number; }
    word.textContent = "";
    changedWhat();
  });
  form.addEventListener("submit", writeDown);
  form.addEventListener("input", function (event) {
    word.textContent = "";
    if (event.target === what) { changedWhat(); } else { judge(); }
  });
})();
