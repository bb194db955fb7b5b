// The data of the archive, in small classic scripts, because a browser that opens the site from disk loads nothing
// else. Each says setupSheetData(name, data); generator/archive/columns.py says what is in them.
(function () {
  "use strict";

  var say = window.setupSheet.say;
  var FOLDER = "find/";
  var held = {}, asked = {}; // name -> what its script said; name -> the promise of it

  window.setupSheetData = function (name, data) { held[name] = data; };

  function load(name) {
    if (!asked[name]) {
      asked[name] = new Promise(function (done, failed) {
        if (name in held) { done(held[name]); return; }
        var script = document.createElement("script");
        script.onload = script.onerror = function () {
          script.remove();
          if (name in held) { done(held[name]); return; }
          delete asked[name]; // it may be there the next time
          failed(new Error(say("{file} could not be loaded.", { file: FOLDER + name + ".js" })));
        };
        script.src = FOLDER + name.split("/").map(encodeURIComponent).join("/") + ".js";
        document.head.append(script);
      });
    }
    return asked[name];
  }

  function unpacked(text) {
    if (!window.DecompressionStream) {
      return Promise.reject(new Error(say("This browser is older than 2023 and cannot unpack the list of jobs. The lists by thread, lathe, material, customer and year work in it.")));
    }
    var packed = Uint8Array.from(atob(text), function (sign) { return sign.charCodeAt(0); });
    var stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate"));
    return new Response(stream).arrayBuffer().then(function (buffer) { return new Uint8Array(buffer); });
  }

  // Numbers that lie byte by byte: the low byte of all of them, then the next.
  function fromPlanes(bytes, count, width) {
    var numbers = new Uint32Array(count);
    for (var plane = 0; plane < width; plane += 1) {
      for (var at = 0; at < count; at += 1) { numbers[at] |= bytes[plane * count + at] << (8 * plane); }
    }
    return numbers;
  }

  // Where each job's value stands in the dictionary, from 0; a 0 in the script is the next one that is new.
  function places(coded) {
    var next = 0;
    return coded.map(function (place) { return place ? place - 1 : next++; });
  }

  // The bits of each word -> the words of each set.
  function sets(words, bytes, count) {
    var each = Math.ceil(count / 8), found = Array.from({ length: count }, function () { return []; });
    words.forEach(function (word, number) {
      for (var at = 0; at < count; at += 1) {
        if (bytes[number * each + (at >> 3)] >> (at & 7) & 1) { found[at].push(word); }
      }
    });
    return found;
  }

  // -> what the script's first line says, and by name { values: the dictionary, of: each job's place in it }
  function readColumns(bytes, jobs) {
    var end = bytes.indexOf(10), at = end + 1;
    var head = JSON.parse(new TextDecoder().decode(bytes.subarray(0, end)));
    var count = jobs === undefined
      ? head.blocks.reduce(function (sum, block) { return sum + block[2]; }, 0) : jobs;
    var columns = {};
    head.columns.forEach(function (column) {
      var values = column[1], width = column[2], many = column[3];
      var of = places(fromPlanes(bytes.subarray(at), count, width));
      at += width * count;
      if (many >= 0) {
        var size = values.length * Math.ceil(many / 8);
        values = sets(values, bytes.subarray(at, at + size), many);
        at += size;
      }
      columns[column[0]] = { values: values, of: of };
    });
    return { head: head, columns: columns, count: count };
  }

  var whole; // the promise of the archive

  // -> { count, blocks: [{ name, year, start, count }], files, sheaf, columns }
  function archive() {
    whole = whole || load("columns").then(unpacked).then(function (bytes) {
      var read = readColumns(bytes), start = 0;
      var blocks = read.head.blocks.map(function (block) {
        var one = { name: block[0], year: block[1], start: start, count: block[2] };
        start += one.count;
        return one;
      });
      return { count: read.count, blocks: blocks, files: read.head.files, sheaf: read.head.sheaf, columns: read.columns };
    });
    whole.catch(function () { whole = null; });
    return whole;
  }

  // A column that is not among those loaded with the page.
  function column(name) {
    return archive().then(function (all) {
      if (all.columns[name]) { return all.columns[name]; }
      return load("columns/" + name).then(unpacked).then(function (bytes) {
        all.columns[name] = readColumns(bytes, all.count).columns[name];
        return all.columns[name];
      });
    });
  }

  // The jobs in their order by number or title.
  function order(name) {
    return archive().then(function (all) {
      return load("orders/" + name).then(unpacked).then(function (bytes) { return fromPlanes(bytes, all.count, 4); });
    });
  }

  function blockOf(all, job) {
    var low = 0, high = all.blocks.length - 1;
    while (low < high) {
      var middle = (low + high + 1) >> 1;
      if (all.blocks[middle].start <= job) { low = middle; } else { high = middle - 1; }
    }
    return all.blocks[low];
  }

  function sheaf(all, block, number) {
    return load("rows/" + block.name + "." + number).then(function (data) {
      return data[2].map(function (row, at) {
        var usual = row[0].charAt(0) !== "/";
        return {
          job: block.start + number * all.sheaf + at,
          address: usual ? data[0] + row[0] + data[1] : row[0].slice(1),
          number: row[1], title: row[2]
        };
      });
    });
  }

  // Address, number and title of these jobs, in their order.
  function rows(jobs) {
    return archive().then(function (all) {
      return Promise.all(jobs.map(function (job) {
        var block = blockOf(all, job), inside = job - block.start;
        return sheaf(all, block, Math.floor(inside / all.sheaf)).then(function (found) {
          return found[inside % all.sheaf];
        });
      }));
    });
  }

  // The rows of those of these addresses that are in the archive, in its order. A year is loaded whole.
  function rowsAt(addresses) {
    var wanted = new Set(addresses), years = new Set();
    wanted.forEach(function (address) {
      try { years.add(decodeURIComponent(address.split("/")[1] || "")); } catch (error) { /* not one of ours */ }
    });
    return archive().then(function (all) {
      var parts = [];
      all.blocks.forEach(function (block) {
        for (var at = 0; years.has(block.year) && at * all.sheaf < block.count; at += 1) {
          parts.push(sheaf(all, block, at));
        }
      });
      return Promise.all(parts).then(function (found) {
        return found.flat().filter(function (row) { return wanted.has(row.address); });
      });
    });
  }

  window.setupSheet = window.setupSheet || {};
  window.setupSheet.data = { load: load, archive: archive, column: column, order: order, rows: rows, rowsAt: rowsAt };
})();
