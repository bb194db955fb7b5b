// Keeps what is written on the page in the browser: one item for each field, so that two tabs that write two
// fields lose neither, and of one field the last change stays. What the browser does not keep is held while the
// page is open, and `trouble` says why.
(function () {
  "use strict";

  var say = window.setupSheet.say;
  var FIRST = "setup-sheet";

  function Kept(parts, revision) {
    this.root = [FIRST].concat(parts).map(encodeURIComponent).join("/") + "/";
    this.revision = revision;
    this.held = {}; // key -> item, of what the browser did not take
    this.trouble = "";
    this.listeners = [];
    this.store = this.find();
    window.addEventListener("storage", this.heard.bind(this));
    window.addEventListener("beforeunload", this.beforeLeaving.bind(this));
  }

  Kept.prototype.find = function () {
    try {
      var store = window.localStorage, probe = FIRST + "-probe";
      store.setItem(probe, "1");
      var good = store.getItem(probe) === "1";
      store.removeItem(probe);
      if (good) { return store; }
    } catch (error) {
      if (error && /quota/i.test(error.name)) {
        this.trouble = say("The browser's store is full.");
        return window.localStorage;
      }
    }
    this.trouble = say("This browser keeps nothing for this page (a private window, or pages from disk are refused).");
    return null;
  };

  Kept.prototype.key = function (id, revision) {
    return this.root + encodeURIComponent(revision === undefined ? this.revision : revision) + "/" + id;
  };

  Kept.prototype.listen = function (told) { this.listeners.push(told); };

  Kept.prototype.tell = function (id) { this.listeners.forEach(function (told) { told(id); }); };

  Kept.prototype.heard = function (event) {
    if (event.key === null) { this.tell(null); return; }
    if (event.key.indexOf(this.root) !== 0) { return; }
    delete this.held[event.key]; // another tab wrote it later
    this.tell(event.key.split("/").pop());
  };

  Kept.prototype.beforeLeaving = function (event) {
    if (Object.keys(this.held).length) {
      event.preventDefault();
      event.returnValue = "";
    }
  };

  Kept.prototype.put = function (key, item) {
    var text = JSON.stringify(item);
    try {
      this.store.setItem(key, text);
      if (this.store.getItem(key) !== text) { throw new Error("not kept"); }
      delete this.held[key];
    } catch (error) {
      this.held[key] = item;
      if (this.store) { this.trouble = say("The browser's store is full, or refuses what is written."); }
    }
  };

  Kept.prototype.write = function (id, value, what, by) {
    var key = this.key(id), self = this;
    this.put(key, { value: value, time: Date.now(), what: what, by: by });
    Object.keys(this.held).forEach(function (old) { if (old !== key) { self.put(old, self.held[old]); } });
    if (this.store && !Object.keys(this.held).length) { this.trouble = ""; }
    this.tell(id);
  };

  Kept.prototype.item = function (key) {
    if (this.held[key]) { return this.held[key]; }
    try {
      var item = JSON.parse(this.store.getItem(key));
      return item && typeof item === "object" && item.what && typeof item.time === "number" ? item : null;
    } catch (error) { return null; } // no store, or not ours
  };

  Kept.prototype.value = function (id) {
    var item = this.item(this.key(id));
    return item ? item.value : undefined;
  };

  Kept.prototype.keys = function () {
    var keys = Object.keys(this.held);
    try {
      for (var at = 0; at < this.store.length; at += 1) {
        var key = this.store.key(at);
        if (key.indexOf(this.root) === 0 && keys.indexOf(key) < 0) { keys.push(key); }
      }
    } catch (error) { /* no store: what is held is all */ }
    return keys;
  };

  // Everything kept of this job, of all its revisions, oldest first.
  Kept.prototype.all = function () {
    var self = this;
    return this.keys().map(function (key) {
      var item = self.item(key), parts = key.slice(self.root.length).split("/");
      return item && {
        key: key, id: parts[1], revision: decodeURIComponent(parts[0]), value: item.value, time: item.time,
        what: item.what, by: typeof item.by === "string" ? item.by : "", held: key in self.held
      };
    }).filter(Boolean).sort(function (one, other) { return one.time - other.time; });
  };

  Kept.prototype.clear = function () {
    var self = this;
    this.keys().forEach(function (key) {
      delete self.held[key];
      try { self.store.removeItem(key); } catch (error) { /* it was only held */ }
    });
    this.trouble = this.store ? "" : this.trouble;
    this.tell(null);
  };

  // Small things that need not be said when they are lost: who writes, what was taken out.
  Kept.prototype.remember = function (name, value) {
    try { this.store.setItem(this.root + name, JSON.stringify(value)); } catch (error) { /* asked again next time */ }
  };

  Kept.prototype.remembered = function (name) {
    try { return JSON.parse(this.store.getItem(this.root + name)); } catch (error) { return null; }
  };

  window.setupSheet = window.setupSheet || {};
  window.setupSheet.Kept = Kept;
})();
