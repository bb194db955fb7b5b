// The working of a figure, in place. The link beside a figure leads to the appendix; here, where it is followed, the
// lines that stand there are shown under the link and shut again. The appendix itself is then for paper only.
(function () {
  "use strict";

  var sheet = document.querySelector("article.sheet");
  if (!sheet) { return; }
  var say = window.setupSheet.say;
  var LINK = ".figures a[href^='#w'], .cell a[href^='#w'], .route-table a[href^='#w']";
  var links = [];

  function lines(link) {
    var more = link.dataset.lines;
    return more ? more.split(" ").map(function (number) { return "w" + number; }) : [link.hash.slice(1)];
  }

  function paragraph(nodes) {
    var made = document.createElement("p");
    nodes.forEach(function (node) { made.append(node.cloneNode(true)); });
    return made;
  }

  // Where the site explains a figure: by its name on any sheet (sheet/explained_at.py), on the page of its first word.
  function explained(line) {
    var top = sheet.dataset.explained;
    var row = sheet.querySelector("tr[id^='figure-'] a[href='#" + line.id + "']");
    var name = line.dataset.of || row && row.closest("tr").id.slice("figure-".length);
    if (!top || !name) { return []; }
    name = name.replace(/([._])[0-9]+(?=[.]|$)/g, "$1n").replace(/^reach[.][a-z_]+[.](?=(left|right|quill)$)/, "reach.cut.");
    if (name.indexOf(".") < 0) { name = "operation.n." + name; }
    var link = document.createElement("a");
    link.className = "explains";
    link.href = top + "help/figures/" + name.split(".")[0] + ".html#" + name;
    link.textContent = say("What it is");
    return [" ", link];
  }

  // A line of the appendix: the formula with its numbers, then its source. In the row of its own operation that
  // need not be named again.
  function working(id, own) {
    var line = document.getElementById(id), source = line.lastElementChild;
    var said = paragraph(Array.prototype.slice.call(line.childNodes, 0, -1)), from = paragraph([]);
    var text = said.lastChild, label = text.data.trimStart();
    if (own && label.indexOf(own) === 0) {
      label = label.slice(own.length);
      text.data = (said.firstChild === text ? "" : " ") + label.charAt(0).toUpperCase() + label.slice(1);
    }
    from.textContent = say("Source: {source}", { source: source.textContent });
    from.append.apply(from, explained(line));
    return [said, from];
  }

  function operation(link) { // "2 Turn to 2 in: ", with which its figures begin
    var row = link.closest("tr.what");
    return row && row.querySelector(".done b").textContent + " " + row.querySelector(".title").textContent + ": ";
  }

  function isOpen(link) { return link.getAttribute("aria-expanded") === "true"; }

  function toggle(link) {
    if (isOpen(link)) {
      link.nextElementSibling.remove();
    } else {
      var shown = document.createElement("div");
      shown.className = "shown-working";
      lines(link).filter(function (id) { return document.getElementById(id); }).forEach(function (id) { shown.append.apply(shown, working(id, operation(link))); });
      link.after(shown);
    }
    link.setAttribute("aria-expanded", String(!isOpen(link)));
  }

  function name(link) { // what the row is about; a link of the route says it by itself
    var row = link.closest("tr"), head = row && row.querySelector("th") || link.parentElement.querySelector(".label");
    return link.querySelector(".unseen") || !head ? "" : head.textContent;
  }

  function follow() { // an address that names a line of the appendix, which the screen does not show
    var link = /^#w[0-9]+$/.test(location.hash) && links.find(function (one) {
      return lines(one).indexOf(location.hash.slice(1)) >= 0;
    });
    if (!link) { return; }
    if (!isOpen(link)) { toggle(link); }
    link.focus();
  }

  function take(part) {
    Array.prototype.forEach.call(part.querySelectorAll(LINK), named);
  }

  function named(link) {
    var about = name(link), how = link.firstChild.textContent.trim();
    link.setAttribute("aria-expanded", "false");
    if (about) { link.setAttribute("aria-label", say("{how} (working of {about})", { how: how, about: about })); }
    links.push(link);
  }

  take(sheet);
  sheet.addEventListener("unpacked", function (event) { // parts of a long sheet that come later
    event.detail.forEach(take);
    follow();
  });
  sheet.addEventListener("click", function (event) {
    var link = event.target.closest(LINK);
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) { return; }
    event.preventDefault();
    toggle(link);
  });
  sheet.classList.add("shows-workings");
  window.addEventListener("hashchange", follow);
  follow();
})();
