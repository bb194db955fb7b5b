// From one reading to the cuts that are left: the same sums, step for step, as generator/calc/left_to_cut.py,
// which says what each means. A test holds both against each other.
(function () {
  "use strict";

  var say = window.setupSheet.say;
  var NEARLY = 1e-6;
  var SLIPS = [10, 0.1, 100, 0.01, 1000, 0.001, 10000, 0.0001];
  var MM_IN_INCH = 25.4;
  var PLAIN = /^(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)$/;

  function leftToCut(reading, read, feed) {
    var left = { means: "no sense", over: 0, halves: 0, crossHalves: 0, cuts: [] };
    if (!(read.bottom <= reading && reading <= read.top)) { return left; }
    left.over = (read.inside ? read.aim - reading : reading - read.aim) / read.per;
    var travel = left.over / 2 / feed.along;
    var halves = Math.max(Math.floor(travel / feed.half + NEARLY), 0);
    var crossHalves = Math.max(Math.floor(left.over / 2 / feed.crossHalf + NEARLY), 0);
    var gone = read.inside ? read.most : read.least, full = read.inside ? read.least : read.most;
    var beyond = NEARLY - travel / feed.half >= 1;
    if (gone === null ? beyond : read.inside ? reading > gone : reading < gone) {
      left.means = "past";
      return left;
    }
    left.halves = halves;
    left.crossHalves = crossHalves;
    if (full === null ? halves === 0 : read.inside ? reading >= full : reading <= full) {
      left.means = "inside";
      return left;
    }
    left.means = "to cut";
    left.cuts = cuts(left.over, halves, feed);
    return left;
  }

  function cuts(over, halves, feed) {
    if (halves <= feed.small) { return halves ? [halves] : []; }
    if (halves < 2 * feed.small) { return [feed.small, halves - feed.small]; }
    var before = halves - feed.small;
    var step = feed.half * feed.along;
    var deep = Math.max(feed.depth - over / 2, 0);
    var end = deep + before * step;
    var count = Math.max(Math.ceil((end * end - deep * deep) / (feed.first * feed.first) - NEARLY), 1);
    var found = [], done = 0;
    for (var number = 1; number <= count; number += 1) {
      var square = deep * deep + (end * end - deep * deep) * number / count;
      var there = number === count ? before : Math.floor((Math.sqrt(square) - deep) / step / 2 + 0.5) * 2;
      there = Math.min(there, before);
      if (there > done) {
        found.push(there - done);
        done = there;
      }
    }
    return found.concat([feed.small]);
  }

  function slipIn(reading, read, inch) {
    var turned = inch ? reading / MM_IN_INCH : reading * MM_IN_INCH;
    if (read.bottom <= turned && turned <= read.top) { return [inch ? "mm" : "inch", turned]; }
    for (var at = 0; at < SLIPS.length; at += 1) {
      var moved = reading * SLIPS[at];
      if (read.bottom <= moved && moved <= read.top) { return ["point", moved]; }
    }
    return ["", 0];
  }

  // What was typed, as {size, text} in the unit of the thread, or {why} it is not a size.
  function readSize(typed, unit) {
    var text = window.setupSheet.pointed(typed.replace(/[\s\u00a0\u202f]+/g, " ").trim());
    var parts = /^(.*?) ?(mm|in|inch|inches|"|″)?$/i.exec(text);
    var number = parts[1].trim(), said = (parts[2] || "").toLowerCase();
    if (!text) { return { why: "" }; }
    if (number.indexOf(",") >= 0 && !window.setupSheet.takesComma) {
      return { why: say("There is a comma in it. Write it with a point, as {number}, if that is what it reads.",
        { number: number.replace(/,/g, ".") }) };
    }
    if (!PLAIN.test(number)) {
      return { why: say("That is not one plain number. Write what the instrument reads, with a point.") };
    }
    var in_ = said === "" ? unit : said === "mm" ? "mm" : "in";
    var size = Number(number);
    if (in_ !== unit) { size = unit === "in" ? size / MM_IN_INCH : size * MM_IN_INCH; }
    return { size: size, text: number + " " + in_ };
  }

  window.setupSheet = window.setupSheet || {};
  window.setupSheet.sums = { leftToCut: leftToCut, slipIn: slipIn, readSize: readSize };
})();
