// Which jobs are left under a choice, how many of them each value would leave, and their order.
(function () {
  "use strict";

  var KIND = 1, SIZE = 3, PITCH = 4, PITCH_SIZE = 5, HAND = 6, SIDE = 7; // of a thread, in mm
  var NEAR = 1e-6; // of a size, so that both ends of a range belong to it
  var NONE = { kind: "no thread", mate: "no mate named" };

  function ofThread(at) { return function (thread) { return thread.length ? [thread[at]] : []; }; }
  function itself(value) { return [value]; }
  function all(values) { return values; }

  // The column that a facet reads, and how it finds its values in an entry of the dictionary.
  var READS = {
    kind: ["thread", function (thread) { return [thread.length ? thread[KIND] : NONE.kind]; }],
    pitch: ["thread", ofThread(PITCH)],
    hand: ["thread", ofThread(HAND)],
    side: ["thread", ofThread(SIDE)],
    material: ["material", itself],
    lathe: ["lathe", itself],
    holding: ["holding", all],
    customer: ["customer", itself],
    year: ["year", itself],
    status: ["state", function (state) { return [state[0]]; }],
    duty: ["duty", all],
    mate: ["mate", function (mate) { return [mate || NONE.mate]; }],
    findings: ["findings", all]
  };

  function years(archive) {
    var of = new Uint32Array(archive.count);
    archive.blocks.forEach(function (block, number) { of.fill(number, block.start, block.start + block.count); });
    return { values: archive.blocks.map(function (block) { return block.year; }), of: of };
  }

  function columnOf(name) {
    var column = READS[name][0], data = window.setupSheet.data;
    return column === "year" ? data.archive().then(years) : data.column(column);
  }

  // name -> the promise of { name, of, entries: the values of each entry of the dictionary }
  function facet(name) {
    return columnOf(name).then(function (column) {
      return {
        name: name, of: column.of,
        entries: column.values.map(function (value) { return READS[name][1](value).filter(Boolean); })
      };
    });
  }

  // Which entries of the dictionary a choice lets through; null where nothing is chosen.
  function passing(facet, chosen) {
    if (!chosen.length) { return null; }
    return facet.entries.map(function (values) {
      return values.some(function (value) { return chosen.includes(value); });
    });
  }

  function inRange(thread, from, to) {
    if (!thread.length) { return false; }
    return !(thread[SIZE] < from * (1 - NEAR)) && !(thread[SIZE] > to * (1 + NEAR)); // NaN is no limit
  }

  // -> { jobs: those left, in the archive's order; counts: facet -> value -> how many jobs it would leave, by itself,
  //      under the other choices }
  function narrowed(archive, facets, choice, hits) {
    var bit = choice.written ? window.setupSheet.words.WRITTEN : window.setupSheet.words.HAS;
    var from = window.setupSheet.choice.size(choice.from), to = window.setupSheet.choice.size(choice.to);
    var sized = !isNaN(from) || !isNaN(to);
    var inside = sized && archive.columns.thread.values.map(function (thread) { return inRange(thread, from, to); });
    var threads = archive.columns.thread.of;
    var active = [];
    var counted = facets.map(function (one) {
      var lets = passing(one, choice.chosen[one.name]);
      var count = { of: one.of, lets: lets, at: new Uint32Array(one.entries.length) };
      if (lets) { active.push(count); }
      return count;
    });
    var jobs = [];
    for (var job = 0; job < archive.count; job += 1) {
      if (hits && !(hits[job] & bit) || sized && !inside[threads[job]]) { continue; }
      var refused = null, twice = false;
      for (var at = 0; at < active.length && !twice; at += 1) {
        if (!active[at].lets[active[at].of[job]]) { twice = refused !== null; refused = active[at]; }
      }
      if (twice) { continue; }
      if (refused) { refused.at[refused.of[job]] += 1; continue; }
      jobs.push(job);
      for (var one = 0; one < counted.length; one += 1) { counted[one].at[counted[one].of[job]] += 1; }
    }
    var counts = {};
    facets.forEach(function (facet, number) {
      var values = counts[facet.name] = new Map();
      facet.entries.forEach(function (entry, at) {
        new Set(entry).forEach(function (value) {
          values.set(value, (values.get(value) || 0) + counted[number].at[at]);
        });
      });
    });
    return { jobs: jobs, counts: counts };
  }

  // The place of each entry of a dictionary among them all, by `key`; those without one come last.
  function ranks(values, key) {
    var keys = values.map(key), order = values.map(function (_, at) { return at; });
    function compare(one, other) {
      var a = keys[one], b = keys[other];
      if (a === b) { return 0; }
      if (a === "" || b === "") { return a === "" ? 1 : -1; }
      return typeof a === "number" ? a - b : a.localeCompare(b, "en", { numeric: true });
    }
    order.sort(compare);
    var found = new Uint32Array(values.length), rank = 0;
    order.forEach(function (entry, at) {
      if (at && compare(order[at - 1], entry)) { rank += 1; }
      found[entry] = rank;
    });
    return found;
  }

  function threadKey(at) { return function (thread) { return thread.length ? thread[at] : ""; }; }

  function byColumn(name, key) {
    return window.setupSheet.data.column(name).then(function (column) {
      var rank = ranks(column.values, key);
      return function (job) { return rank[column.of[job]]; };
    });
  }

  function byOrder(name) {
    return window.setupSheet.data.order(name).then(function (order) {
      var rank = new Uint32Array(order.length);
      order.forEach(function (job, at) { rank[job] = at; });
      return function (job) { return rank[job]; };
    });
  }

  var SORTED = {
    newest: function () { return Promise.resolve(function () { return 0; }); },
    number: function () { return byOrder("number"); },
    title: function () { return byOrder("title"); },
    size: function () { return byColumn("thread", threadKey(SIZE)); },
    pitch: function () { return byColumn("thread", threadKey(PITCH_SIZE)); },
    material: function () { return byColumn("material", String); },
    lathe: function () { return byColumn("lathe", String); },
    customer: function () { return byColumn("customer", String); }
  };

  // Those first where somebody wrote the words.
  function writtenFirst(hits) {
    return Promise.resolve(function (job) { return hits && hits[job] & window.setupSheet.words.WRITTEN ? 0 : 1; });
  }

  // The promise of the jobs, sorted; where two are alike the newer comes first.
  function sorted(jobs, by, hits) {
    return (SORTED[by] || writtenFirst)(hits).then(function (rank) {
      return jobs.slice().sort(function (one, other) { return rank(one) - rank(other) || one - other; });
    });
  }

  window.setupSheet = window.setupSheet || {};
  window.setupSheet.facets = { facet: facet, narrowed: narrowed, sorted: sorted };
})();
