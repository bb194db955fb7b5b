// Says the texts of the scripts, writes their numbers, and reads what is typed. A text in say(…) and sayCount(…) is
// English where it stands; when the site is made each is replaced by that of the shop's language, and so is the decimal
// sign (generator/language/scripts.py). All other scripts come after this one.
(function () {
  "use strict";

  var DECIMAL_SIGN = ".";
  var WITH_COMMA = /(^|[^0-9.,])([0-9]*),([0-9]+)(?![0-9.,])/g; // a number with one comma and no point
  var INCH = say("inch inches").toLowerCase().split(" ").filter(function (word) { return word.indexOf("inch") < 0; });

  var STATUS = { // where a job stands, as the data has it in every language
    quoted: say("quoted"), planned: say("planned"), "in work": say("in work"), stopped: say("stopped"), done: say("done"),
    scrapped: say("scrapped"), superseded: say("superseded"), "not ready to run": say("not ready to run"),
    errors: say("errors")
  };

  // A text with its {places} filled; a number among them is written with the decimal sign.
  function say(text, parts) {
    return text.replace(/\{(\w+)\}/g, function (place, name) {
      if (!parts || !(name in parts)) { return place; }
      return typeof parts[name] === "number" ? figures(String(parts[name])) : String(parts[name]);
    });
  }

  // One text for one, another for any other number; {count} in it is the number.
  function sayCount(one, many, count, parts) {
    return say(count === 1 ? one : many, Object.assign({ count: count }, parts));
  }

  // Numbers written with a point, with the decimal sign.
  function figures(text) { return text.replace(/\./g, DECIMAL_SIGN); }

  function figure(number, places) { return figures(number.toFixed(places)); }

  // What somebody typed, with a point in it, and inches as "in". In a language with decimal commas a comma is one, too;
  // it never stands between thousands. More than one sign in a number stays as it is, and so is no number.
  function pointed(text) {
    var plain = DECIMAL_SIGN === "," ? text.replace(WITH_COMMA, "$1$2.$3") : text;
    return plain.replace(/[^\s0-9.,]+$/, function (word) { return INCH.indexOf(word.toLowerCase()) < 0 ? word : "in"; });
  }

  function status(value) { return STATUS[value] || value; }

  window.setupSheet = window.setupSheet || {};
  window.setupSheet.say = say;
  window.setupSheet.sayCount = sayCount;
  window.setupSheet.figure = figure;
  window.setupSheet.figures = figures;
  window.setupSheet.pointed = pointed;
  window.setupSheet.status = status;
  window.setupSheet.takesComma = DECIMAL_SIGN === ",";
})();
