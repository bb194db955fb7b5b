// What was written on the page, as a piece of log.yml: a YAML list. What a person typed always stands in double
// quotes with everything unusual as an escape, so that a reader gets back exactly what was typed.
(function () {
  "use strict";

  var say = window.setupSheet.say, pointed = window.setupSheet.pointed;
  var SIZE = /^(?:(?:0|[1-9][0-9]*)?\.[0-9]+|0|[1-9][0-9]*)$/; // the numbers that a job file takes
  var WITH_UNIT = /^(.*?) ?(in|mm|"|)$/;
  var TURN = both("turns turn t", say("turns turn t")).sort(function (one, other) { return other.length - one.length; });
  var AS_CUT = new RegExp("^(?:([0-9]{1,2}) ?(?:" + TURN.map(literally).join("|") + ")[ ,+]*)?(.+)$", "i");
  var YES = both("y yes goes ok", say("y yes goes ok")), NO = both("n no", say("n no"));
  var WAYS = ["mate", "gauge", "wires", "balls", "size"]; // in which a thread is accepted, as the log has them
  var WAYS_TYPED = both(WAYS.join(" "), say("mate gauge wires balls size")); // in the same order twice
  var MOST = 40; // characters of a number
  var FLOW = ["measured", "fit"];

  // What may be typed: English words, and those of the shop's language.
  function both(english, own) { return (english + " " + own).toLowerCase().split(" "); }

  function literally(word) { return word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"); }

  // JSON's string is YAML's too, but for what YAML takes for a line end or does not let stand as it is.
  function quoted(text) {
    return JSON.stringify(text).replace(/[\u007f-\u00a0\u00ad\u2028\u2029\ufeff\ufffe\uffff]/g, function (sign) {
      return "\\u" + ("000" + sign.charCodeAt(0).toString(16)).slice(-4);
    });
  }

  function Plain(text) { this.text = text; } // ours, or checked: stands without quotes

  function scalar(value) {
    if (value instanceof Plain) { return value.text; }
    return typeof value === "number" ? String(value) : quoted(value);
  }

  function flow(block) {
    return "{" + Object.keys(block).map(function (key) { return key + ": " + scalar(block[key]); }).join(", ") + "}";
  }

  function piece(records) {
    return records.map(function (record) {
      return Object.keys(record).map(function (key, place) {
        var value = key === "inspected" ? "[" + flow(record[key]) + "]"
          : FLOW.indexOf(key) >= 0 ? flow(record[key]) : scalar(record[key]);
        return (place ? "  " : "- ") + key + ": " + value + "\n";
      }).join("");
    }).join("");
  }

  // "0.046", with or without a unit -> a length with its unit, or null where it is none.
  function length(typed, unit) {
    var parts = WITH_UNIT.exec(pointed(typed.trim()));
    if (!parts || parts[1].length > MOST || !SIZE.test(parts[1])) { return null; }
    return new Plain(parts[1] + " " + (parts[2] === "\"" ? "in" : parts[2] || unit));
  }

  function number(typed) {
    var plain = pointed(typed.trim());
    return SIZE.test(plain) && plain.length < MOST ? new Plain(plain) : null;
  }

  function aboveZero(size) { return size !== null && Number(size.text.split(" ")[0]) > 0; }

  // 0.046 -> the dial; "1 turn 0.030" -> turns and dial; anything else -> null.
  function dial(typed, unit, planned, turns) {
    if (typed.trim() === planned) { return { turns: turns, dial: length(/[0-9.,]*$/.exec(planned)[0], unit) }; }
    var parts = AS_CUT.exec(typed.trim());
    var reads = parts && length(parts[2], unit);
    if (!reads) { return null; }
    return parts[1] === undefined ? { dial: reads } : { turns: Number(parts[1]), dial: reads };
  }

  function time(typed) {
    var parts = /^((?:0|[1-9][0-9]*)(?:\.[0-9]+)?) ?(min|h|)$/.exec(pointed(typed.trim()));
    return parts && Number(parts[1]) > 0 && parts[1].length < MOST ? new Plain(parts[1] + " " + (parts[2] || "min")) : null;
  }

  function two(number) { return ("0" + number).slice(-2); }

  function when(time) {
    var day = new Date(time);
    return new Plain(day.getFullYear() + "-" + two(day.getMonth() + 1) + "-" + two(day.getDate()) + " " +
      two(day.getHours()) + ":" + two(day.getMinutes()));
  }

  function note(what, typed) { return { note: what.label + ": " + typed }; }

  // One kept entry -> what the log says of it; null for one that says nothing.
  function said(entry) {
    var what = entry.what, typed = entry.value;
    if (what.takes === "record") { return reading(what); }
    if (what.takes === "tick") { return typed === true ? { note: say("Done: {label}", { label: what.label }) } : null; }
    if (what.takes === "done") { return typed === true ? { finished: new Plain("yes") } : null; }
    if (typeof typed !== "string" || !typed.trim()) { return null; }
    if (what.takes === "dial") { return dial(typed, what.unit, what.planned, what.turns) || { note: typed }; }
    if (what.takes === "time") {
      var took = time(typed);
      return took ? { time: took } : note(what, typed);
    }
    return what.takes === "inspected" ? inspected(what, typed) : note(what, typed);
  }

  // A line of the inspection record: a size, turns, or yes and no; anything else that was written is a note.
  function inspected(what, typed) {
    var block = { feature: new Plain(what.feature) }, reads = null;
    if (what.kind === "size") {
      reads = length(typed, what.unit);
      if (reads) { block[what.side] = reads; }
    } else if (what.kind === "turns") {
      reads = number(typed);
      if (reads) { block.turns = reads; }
    } else if (what.side === "accepted") {
      var how = WAYS_TYPED.indexOf(typed.trim().toLowerCase().replace(/^by +/, ""));
      reads = how < 0 ? null : block.accepted = new Plain(WAYS[how % WAYS.length]);
    } else if (YES.concat(NO).indexOf(typed.trim().toLowerCase()) >= 0) {
      reads = block.goes = new Plain(NO.indexOf(typed.trim().toLowerCase()) < 0 ? "yes" : "no");
    }
    if (!reads) { return note(what, typed); }
    if (what.with) { block.with = what.with; }
    return { inspected: block };
  }

  function measured(key, size, with_, where) {
    var block = {};
    block[key] = size;
    if (with_) { block.with = with_; }
    if (where) { block.where = where; }
    return block;
  }

  function reading(what) {
    if (what.size) {
      var size = length(what.text, what.unit);
      return aboveZero(size) ? { measured: measured(what.size, size, what.with, "") }
        : { note: what.label + ": " + what.text };
    }
    var block = {};
    var turns = what.turns && number(what.turns);
    if (turns) { block.turns = turns; }
    block.feels = new Plain(what.feels);
    if (what.where) { block.where = what.where; }
    return what.turns && !block.turns ? { fit: block, note: say("Turns on: {turns}", { turns: what.turns }) } : { fit: block };
  }

  // Kept entries -> records in the order of the log's keys, oldest first.
  function records(entries) {
    var by = {};
    entries.forEach(function (entry) {
      if (entry.what.takes === "by" && entry.value) { by[entry.what.of] = entry.value; }
    });
    var found = [];
    entries.forEach(function (entry) {
      var taken = entry.what.takes === "by" && hasReading(entries, entry.what.of);
      var content = taken ? null : said(entry);
      if (!content) { return; }
      var record = { at: when(entry.time) }, who = by[entry.id] || entry.by;
      if (who) { record.by = who; }
      if (entry.what.operation) { record.operation = new Plain(entry.what.operation); }
      if (entry.what.pass && !entry.earlier) { record.pass = entry.what.pass; }
      ["turns", "dial", "measured", "fit", "inspected", "note", "finished", "time"].forEach(function (key) {
        if (key in content) { record[key] = content[key]; }
      });
      if (entry.earlier) { record.note = earlierNote(entry, record.note); }
      found.push({ time: entry.time, record: record });
    });
    found.sort(function (one, other) { return one.time - other.time; });
    return found.map(function (one) { return one.record; });
  }

  function hasReading(entries, id) {
    return entries.some(function (entry) { return entry.id === id && said(entry); });
  }

  function earlierNote(entry, note) {
    var about = { revision: entry.revision, label: entry.what.label, stood: entry.what.stood };
    var plan = about.stood ? say("On an earlier plan, revision {revision}: {label}, planned then at {stood}", about)
      : say("On an earlier plan, revision {revision}: {label}", about);
    return plan + (note === undefined ? "" : ": " + note);
  }

  window.setupSheet = window.setupSheet || {};
  window.setupSheet.log = {
    text: function (entries) { return piece(records(entries)); },
    says: said, when: function (time) { return when(time).text; }
  };
})();
