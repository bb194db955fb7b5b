// The cards of the large view, made from the page's data before its fields are looked for. Text only ever enters the
// page as text.
(function () {
  "use strict";

  var say = window.setupSheet.say;
  var data = window.setupSheet && window.setupSheet.data;
  var box = document.querySelector("#large-view .cards");
  if (!data || !box) { return; }

  var EMPTY = { // what a card does not have is not in its data
    title: "", detail: "", tick: "", field: "", field_unit: "", planned: "", marks: [], labels: [], values: [], units: [], words: []
  };

  function made(name, attributes, inside) { // inside: texts and elements
    var element = document.createElement(name);
    Object.keys(attributes).forEach(function (key) { element.setAttribute(key, attributes[key]); });
    element.append.apply(element, inside);
    return element;
  }

  function figures(card) {
    return made("dl", {}, card.labels.map(function (label, at) {
      var unit = card.units[at], value = made("dd", {}, [card.values[at]]);
      if (unit) { value.append(made("span", { "class": "unit" }, [" " + unit])); }
      return made("div", card.words[at] ? { "class": "words" } : {}, [made("dt", {}, [label]), value]);
    }));
  }

  function marks(texts) {
    return made("p", { "class": "marks" }, texts.map(function (text) { return made("strong", {}, [text]); }));
  }

  function button(text, attributes) {
    return made("p", {}, [made("button", Object.assign({ type: "button" }, attributes), [text])]);
  }

  function spoken(card) { // the whole card in one sentence, for those who listen
    var said = card.labels.map(function (label, at) { return [label, card.values[at], card.units[at]].join(" ").trim(); });
    return [card.head, card.hold ? say("Hold") : "", card.title].concat(said, card.marks).filter(Boolean).join(". ") + ".";
  }

  function cardOf(card) {
    var parts = [made("p", { "class": "head" }, [card.head])];
    var detail = card.detail ? [made("p", { "class": "detail" }, [card.detail])] : [];
    if (card.marks.length) { parts.push(marks(card.marks)); }
    if (card.hold) { parts.push(marks([say("HOLD")])); }
    if (card.title) { parts.push(made("h3", {}, [card.title])); }
    if (card.labels.length) { parts.push(figures(card)); }
    if (!card.planned) { parts = parts.concat(detail); }
    if (card.tick) {
      var tick = made("input", { type: "checkbox", autocomplete: "off", "data-entry": card.tick }, []);
      parts.push(made("p", {}, [made("label", { "class": "tick" }, [tick, " " + say("Done")])]));
    }
    if (card.planned) {
      parts.push(button(say("Cut as planned"), { "data-planned": card.planned, "data-for": card.field }));
    }
    if (card.field) {
      var label = card.field_label + (card.field_unit ? ", " + card.field_unit : "");
      var place = made("span", { "data-entry": card.field }, []);
      parts.push(made("p", { "class": "write" }, [made("span", {}, [label]), " ", place]));
    }
    if (card.trial && data.fits.length) {
      parts.push(button(say("I measured, or tried"), { "data-opens": "measured", "data-pass": card.number }));
    }
    if (card.planned) { parts = parts.concat(detail); }
    return made("article", {
      "class": "card", hidden: "", "data-says": spoken(card), "data-tick": card.tick, "data-field": card.field
    }, parts);
  }

  box.append.apply(box, data.cards.map(function (card) { return cardOf(Object.assign({}, EMPTY, card)); }));
})();
