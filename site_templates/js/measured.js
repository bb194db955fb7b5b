// "I measured, or tried": what a reading says is left on the dials and in how many cuts, or what follows from what
// is felt. The last small cut is never ordered by the number alone: it comes after measuring again.
(function () {
  "use strict";

  var ours = window.setupSheet, page = ours && ours.page;
  var dialog = document.getElementById("measured");
  if (!page || !dialog) { return; }
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

  function fixed(number) { return number.toFixed(size.places) + " " + size.unit; }

  // Half divisions of a dial, as it reads, and counted: "0.0030 in, 3 divisions".
  function onDial(halves, division) {
    var whole = Math.floor(halves / 2), half = halves % 2 ? (whole ? " 1/2" : "1/2") : "";
    var counted = (whole || !half ? String(whole) : "") + half;
    var name = halves <= 2 ? " division" : " divisions";
    return (halves * division / 2).toFixed(size.dialPlaces) + " " + size.dialUnit + ", " + counted + name;
  }

  function say(head, text) {
    verdict.textContent = head;
    why.textContent = text;
  }

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
      return ["Less than half a division is left: a spring pass at the same reading.", "Measure again, and try the mate or the gauge."];
    }
    before.forEach(function (cut) { said.push("On by " + onDial(cut, size.feedDivision) + "."); });
    if (before.length) { said.push("A spring pass at the same reading. Measure again, and write it in here."); }
    said.push((before.length ? "Only then, and only if that reading says so: the last small cut" : "One small cut") +
      ", no more than " + onDial(last, size.feedDivision) + ".");
    said.push("A spring pass. Measure, and try the mate or the gauge: they decide.");
    return said;
  }

  function limits(read) {
    var least = read.least === null ? null : fixed(read.least), most = read.most === null ? null : fixed(read.most);
    if (least && most) { return "Its limits: " + fixed(read.least) + " to " + most + "."; }
    return least ? "At least " + least + "." : most ? "At most " + most + "." : "Aimed at: " + fixed(read.aim) + ".";
  }

  function noSense(read, typed) {
    var slip = sums.slipIn(typed.size, read, size.unit === "in");
    var meant = slip[0] === "" ? ""
      : slip[0] === "point" ? " Was " + fixed(slip[1]) + " meant?"
        : " That looks like " + (slip[0] === "mm" ? "millimeters: " : "inches: ") + fixed(slip[1]) + " meant?";
    say("THAT CANNOT BE", "This thread reads from " + fixed(read.bottom) + " to " + fixed(read.top) + "." + meant +
      " Look at the instrument again, and type it again.");
  }

  function judgeSize() {
    var read = way(), typed = sums.readSize(reads.value, size.unit);
    if (typed.why !== undefined) {
      say(typed.why ? "NOT A SIZE" : "", typed.why);
      return;
    }
    var left = sums.leftToCut(typed.size, read, size.feed);
    if (left.means === "no sense") { noSense(read, typed); return; }
    var off = fixed(Math.abs(left.over));
    if (left.means === "past") {
      say(read.inside ? "OVER SIZE: STOP" : "UNDER SIZE: STOP", "Cut nothing more: nothing puts metal back. " + limits(read) +
        " Measure once more, cold and clean; write it down; ask before the part leaves the lathe.");
      return;
    }
    if (left.means === "inside") {
      say("INSIDE ITS LIMITS", limits(read) + " Cut nothing more by the number: try the mate or the gauge. Is it still too tight, " +
        (left.halves ? "no more than " + onDial(Math.min(left.halves, size.feed.small), size.feedDivision) + ", a spring pass, and try again."
          : "a spring pass at the same reading, and try again."));
      return;
    }
    say(off + " TO COME OFF", "On the pitch diameter, to " + fixed(read.aim) + ". " + limits(read));
    amounts.hidden = false;
    amounts.querySelector("[data-slide]").textContent = "Left on the " + size.slide;
    amounts.querySelector("[data-on-slide]").textContent = onDial(left.halves, size.feedDivision);
    amounts.querySelector("[data-cross-line]").hidden = size.slide !== "compound";
    amounts.querySelector("[data-on-cross]").textContent = onDial(left.crossHalves, size.crossDivision);
    lines(steps(left.cuts));
  }

  function judge() {
    say("", "");
    amounts.hidden = true;
    lines([]);
    fits.forEach(function (block, number) { block.hidden = !isFit() || number !== feels.selectedIndex; });
    if (isFit()) { judgeTurns(); } else { judgeSize(); }
  }

  function judgeTurns() {
    var count = sums.readSize(turns.value, page.data.unit).size;
    if (count > 0 && count < MOST_TURNS && page.data.lead) {
      say("", turns.value.trim() + (count === 1 ? " turn is " : " turns are ") + (count * page.data.lead).toFixed(PLACES[page.data.unit]) +
        " " + page.data.unit + " of thread, from where it starts: look there.");
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
      about.label = "Tried: " + feels.options[feels.selectedIndex].textContent;
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
    if (!isFit() && !makesSense()) { refuse(reads, "Not written down. Type first what it reads."); return; }
    var about = record(), said = JSON.stringify(about);
    if (said === last && Date.now() - lastTime < TWICE) { return; } // one touch that counted twice
    last = said;
    lastTime = Date.now();
    var id = "said-" + Date.now().toString(36) + "-" + Math.random().toString(36).slice(2, 8);
    page.kept.write(id, true, about, page.by());
    word.textContent = "Written down: " + about.label + (about.text ? " " + about.text : "") + ".";
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
