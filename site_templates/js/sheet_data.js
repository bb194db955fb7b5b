// What the scripts of a sheet work with, as the page holds it: rows in runs, each run with what its rows share, the
// names of the rest, and the values row by row. Here every row gets all of it again.
(function () {
  "use strict";

  var source = document.getElementById("at-machine-data");
  if (!source) { return; }
  var data = JSON.parse(source.textContent);

  function unfolded(runs) {
    return Array.prototype.concat.apply([], runs.map(function (run) {
      return run[2].map(function (values) {
        var row = Object.assign({}, run[0]);
        values.forEach(function (value, at) { if (value !== null) { row[run[1][at]] = value; } });
        return row;
      });
    }));
  }

  var entries = {};
  unfolded(data.entries).forEach(function (entry) {
    entries[entry.id] = entry;
    delete entry.id;
  });
  data.entries = entries;
  data.cards = unfolded(data.cards);
  window.setupSheet = window.setupSheet || {};
  window.setupSheet.source = source;
  window.setupSheet.data = data;
})();
