"use strict";
// The page is whole without this; it only shows one size, other words, other colors, another width.
(() => {
  const data = JSON.parse(document.getElementById("data").textContent);
  const main = document.querySelector("main");
  const versions = { ...data.other, [data.first]: main.innerHTML };
  const chosen = (name) => {
    const input = document.querySelector(`input[name="${name}"]:checked`);
    return input ? input.value : null;
  };

  const showSize = () => {
    const size = chosen("size");
    for (const list of main.querySelectorAll(".sz")) {
      list.dataset.all ??= list.textContent;
      list.textContent = size ? list.dataset.n.split("|")[Number(size)] : list.dataset.all;
    }
    for (const row of main.querySelectorAll("[data-sizes]")) {
      row.hidden = Boolean(size) && !row.dataset.sizes.split(" ").includes(size);
    }
  };

  let shown = data.first;
  const showWords = () => {
    const [terms, form] = data.first.split("-");
    const key = `${chosen("terms") ?? terms}-${chosen("form") ?? form}`;
    if (key !== shown && versions[key] !== undefined) {
      main.innerHTML = versions[key];
      document.documentElement.lang = key.startsWith("UK") ? "en-GB" : "en-US";
      shown = key;
    }
    showSize();
  };

  const sentence = (mm, unit) => {
    const best = data.widths.reduce((a, b) => (Math.abs(b[0] - mm) < Math.abs(a[0] - mm) ? b : a));
    const [width, repeats, chain, stitches, ...balls] = best;
    const told = unit === "cm" ? `${Math.round(width / 10)} cm` : `${Math.round(width / 6.35) / 4} in`;
    const what = data.each > 1 ? `${repeats} ${repeats === 1 ? "repeat makes" : "repeats make"} ${told}` : `${stitches} stitches make ${told}`;
    const start = chain === null ? "" : `: ch ${chain}`;
    const rows = `, then ${stitches} stitches in ${data.stays ? "every row" : "the first row"}.`;
    const yarn = balls.length ? ` Balls: ${balls.map((n, i) => `${n} ${data.yarns[i]}`).join(", ")}.` : "";
    return what + start + rows + yarn;
  };
  const width = document.getElementById("width");
  const answer = document.getElementById("answer");
  const showWidth = () => {
    const told = /^\s*(\d+(?:[.,]\d+)?)\s*(cm|in|inch|inches|["″])?\s*$/i.exec(width.value);
    const value = told ? Number(told[1].replace(",", ".")) : 0;
    const unit = !told || !told[2] ? width.dataset.unit : told[2].toLowerCase() === "cm" ? "cm" : "in";
    const mm = value * (unit === "cm" ? 10 : 25.4);
    const least = data.widths[0][0];
    const most = data.widths[data.widths.length - 1][0];
    if (!width.value.trim() || !(value > 0)) answer.textContent = "";
    else if (mm < least / 2 || mm > most * 1.05) answer.textContent = "That width is not worked out here.";
    else answer.textContent = sentence(mm, unit);
  };

  const repaint = (input) => {
    const code = input.value;
    const light = [1, 3, 5].map((at) => parseInt(code.slice(at, at + 2), 16) / 255)
      .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
    const luminance = 0.2126 * light[0] + 0.7152 * light[1] + 0.0722 * light[2];
    const root = document.documentElement.style;
    root.setProperty(input.dataset.yarn, code);
    root.setProperty(`${input.dataset.yarn}-on`, luminance > 0.19 ? "#211e1b" : "#fff");
  };

  document.getElementById("choose").hidden = false;
  document.addEventListener("change", (event) => {
    const name = event.target.name;
    if (name === "size") showSize();
    else if (name === "terms" || name === "form") showWords();
    else if (event.target.type === "color") repaint(event.target);
  });
  if (width) width.addEventListener("input", showWidth);
})();
