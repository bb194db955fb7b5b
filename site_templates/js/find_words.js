// The words of the search: made plain as generator/archive/words.py does it, looked up in the files that
// generator/archive/search_index.py writes. A word that is typed finds every word that begins with it.
(function () {
  "use strict";

  var LONGEST = 32; // signs
  var HAS = 1, WRITTEN = 2; // bits of a hit
  var SHORTER = "*", WROTE = "@", RUN = "_", BITS = "~";
  var LAST = "ABCDEFGHIJKLMNOP", MORE = "QRSTUVWXYZ[]^{}|";
  var SHARED = "0123456789abcdefghijklmnopqrstuvwxyz";
  var ENTRY = /([0-9a-z])([^A-Z[\]^{}|_@~]*)([A-Z[\]^{}|_~]+)(@[A-Z[\]^{}|_~]*)?/g;
  var ONE_SIGN = { "×": "x", "⌀": "ø", "−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-", "⁄": "/" };
  var SIGNS = /[×⌀−–—‐‑⁄]/g;
  var FRACTION = /([\u00bc-\u00be\u2150-\u215e\u2189])/g;
  var MARK = /[\u0300-\u036f\u0483-\u0489\u0591-\u05bd\u064b-\u065f\u1ab0-\u1aff\u1dc0-\u1dff\u20d0-\u20f0]/g;
  var POINT = /(?<![\p{L}\p{N}])(?<![.])\.(?=[0-9])/gu;
  var MIXED = /(?<![\p{L}\p{N}])(?<![-./+])([0-9]{1,3})(?:-|\s+)(?=[0-9]+\/[0-9])/gu;
  var WORD = /[\p{L}\p{N}]+(?:[-./+][\p{L}\p{N}]+)*/gu;

  function oneSign(text) { return text.replace(SIGNS, function (sign) { return ONE_SIGN[sign]; }); }

  function fold(text) {
    var plain = oneSign(text).replace(FRACTION, " $1").normalize("NFKD");
    return oneSign(plain).replace(MARK, "").toLowerCase();
  }

  function wholeWords(text) {
    var plain = fold(text).replace(/[()[\]{}]/g, "").replace(/(?<=[0-9]),(?=[0-9])/g, ".").replace(POINT, "0.");
    var words = plain.replace(MIXED, "$1+").match(WORD) || [];
    return Array.from(new Set(words.map(function (word) { return Array.from(word).slice(0, LONGEST).join(""); })));
  }

  function depth(word) {
    var first = word.charAt(0);
    if (first < "0" || first > "9") { return /^\p{L}{4}/u.test(word) || /^\p{L}{1,3}$/u.test(word) ? 4 : 6; }
    return word.startsWith("0.00") ? 7 : word.startsWith("0.0") ? 6 : word.charAt(1) === "." ? 5 : 4;
  }

  function crc32(text) {
    var value = -1;
    new TextEncoder().encode(text).forEach(function (byte) {
      value ^= byte;
      for (var bit = 0; bit < 8; bit += 1) { value = value >>> 1 ^ (value & 1 ? 0xedb88320 : 0); }
    });
    return (value ^ -1) >>> 0;
  }

  function fileName(word, files) {
    var signs = word.endsWith(SHORTER) ? word : Array.from(word).slice(0, depth(word)).join("");
    return (crc32(signs) % files).toString(16).padStart(3, "0");
  }

  // What is looked up for a word that was typed: one entry, or all that begin with it.
  function lookedUp(word) {
    var length = Array.from(word).length;
    if (length === 1) { return { entry: word, begins: false }; }
    return length < depth(word) ? { entry: word + SHORTER, begins: false } : { entry: word, begins: true };
  }

  function eachBit(coded, take) {
    for (var at = 0; at < coded.length; at += 1) {
      var five = (LAST + MORE).indexOf(coded.charAt(at));
      for (var bit = 0; bit < 5; bit += 1) { if (five >> bit & 1) { take(5 * at + bit); } }
    }
  }

  // Coded numbers -> each of them.
  function eachNumber(coded, take) {
    var value = 0, last = -1, run = false;
    if (coded.charAt(0) === BITS) { eachBit(coded.slice(1), take); return; }
    for (var at = 0; at < coded.length; at += 1) {
      var sign = coded.charAt(at);
      if (sign === RUN) { run = true; continue; }
      var more = MORE.indexOf(sign);
      if (more >= 0) { value = value << 4 | more; continue; }
      value = value << 4 | LAST.indexOf(sign);
      if (run) {
        for (var left = value + 1; left > 0; left -= 1) { last += 1; take(last); }
      } else {
        last += value + 1;
        take(last);
      }
      value = 0;
      run = false;
    }
  }

  // The entries of a segment that are wanted -> their jobs, and with WRITTEN those where somebody wrote it.
  function eachJob(segment, wanted, take) {
    var word = "", found;
    function has(job) { take(job, HAS); }
    function wrote(job) { take(job, WRITTEN); }
    ENTRY.lastIndex = 0;
    while ((found = ENTRY.exec(segment)) !== null) {
      word = Array.from(word).slice(0, SHARED.indexOf(found[1])).join("") + found[2];
      if (word !== wanted.entry && !(wanted.begins && word.startsWith(wanted.entry))) { continue; }
      eachNumber(found[3], has);
      if (found[4]) { eachNumber(found[4] === WROTE ? found[3] : found[4].slice(1), wrote); }
    }
  }

  // The jobs that have all words of a text -> HAS for each of them, and WRITTEN where somebody wrote all of them;
  // null where the text has no word.
  function matching(text) {
    var words = wholeWords(text), data = window.setupSheet.data;
    if (!words.length) { return Promise.resolve(null); }
    return data.archive().then(function (all) {
      var start = new Map(all.blocks.map(function (block) { return [block.name, block.start]; }));
      return Promise.all(words.map(function (word) {
        var wanted = lookedUp(word);
        return data.load("words/" + fileName(wanted.entry, all.files)).then(function (segments) {
          var hits = new Uint8Array(all.count);
          segments.forEach(function (segment) {
            var from = start.get(segment[0]);
            eachJob(segment[1], wanted, function (job, bit) { hits[from + job] |= bit; });
          });
          return hits;
        });
      }));
    }).then(function (found) {
      return found.reduce(function (both, one) { return both.map(function (hit, at) { return hit & one[at]; }); });
    });
  }

  window.setupSheet = window.setupSheet || {};
  window.setupSheet.words = { fold: fold, wholeWords: wholeWords, fileName: fileName, matching: matching, HAS: HAS, WRITTEN: WRITTEN };
})();
