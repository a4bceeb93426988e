// measure.js - what is wrong with the page as it is laid out now: a list of sentences. Boxes are CSS pixels.
(() => {
  const faults = [], seen = new Set();
  const wrong = (what) => { if (!seen.has(what) && faults.length < 60) { seen.add(what); faults.push(what); } };
  const near = 1;             // pixels within which two edges are the same
  const shown = (e) => e.checkVisibility && e.checkVisibility({ visibilityProperty: true });
  const short = (s) => s.replace(/\s+/g, ' ').trim().slice(0, 40);

  // ---- where text stands: of a line only what its letters cover, without the room between lines
  const letters = (r, px) => {
    const mid = (r.top + r.bottom) / 2, half = 0.36 * px;
    return { left: r.left, right: r.right, top: mid - half, bottom: mid + half };
  };
  const texts = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let n; (n = walker.nextNode());) {
    const e = n.parentElement;
    if (!n.data.trim() || ['TITLE', 'DESC', 'STYLE', 'title', 'desc'].includes(e.tagName) || !shown(e) || getComputedStyle(e).clipPath !== 'none') continue;
    const range = document.createRange(), style = getComputedStyle(e);
    range.selectNodeContents(n);
    const svg = e.closest('svg'), scale = svg && svg.getScreenCTM() ? svg.getScreenCTM().a : 1;
    const px = parseFloat(style.fontSize) * scale;
    for (const r of range.getClientRects())
      if (r.width > 0.5) texts.push({ e, svg, px, text: short(n.data), box: letters(r, px), line: r, style });
  }

  // ---- no two cross
  texts.sort((a, b) => a.box.top - b.box.top);
  for (let i = 0; i < texts.length; i++)
    for (let k = i + 1; k < texts.length && texts[k].box.top < texts[i].box.bottom; k++) {
      const a = texts[i], b = texts[k];
      const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
      const down = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
      if (across > near && down > near) wrong(`"${a.text}" and "${b.text}" cover each other`);
    }

  // ---- none leaves its frame, none is too small
  const wide = document.documentElement.clientWidth;
  for (const t of texts) {
    const scroll = t.e.closest('.scroll'), frame = t.svg || scroll || t.e.closest('td,th,figure,li,.cols,.page') || document.body;
    const f = frame.getBoundingClientRect(), inside = scroll && !t.svg;
    if (!inside && (t.box.left < f.left - near || t.box.right > f.right + near || t.box.top < f.top - near || t.box.bottom > f.bottom + near))
      wrong(`"${t.text}" leaves its frame`);
    if (!inside && (t.box.left < -near || t.box.right > wide + near)) wrong(`"${t.text}" leaves the page`);
    if (t.px < 10.9) wrong(`"${t.text}" is ${t.px.toFixed(1)} pixels small`);
  }
  // a phone zooms out of a page that is too wide, so its own width says nothing
  if (document.documentElement.scrollWidth > window.wanted) wrong('the page scrolls sideways');
  for (const a of document.querySelectorAll('nav a, summary'))
    if (shown(a) && a.getBoundingClientRect().height < 43.5) wrong(`"${short(a.textContent)}" is too low to be touched`);

  // ---- contrast, by the formula of WCAG 2.2
  const colour = (s) => {
    let m = /^rgba?\(([\d.]+), ([\d.]+), ([\d.]+)(?:, ([\d.]+))?\)$/.exec(s);
    if (m) return [+m[1], +m[2], +m[3], m[4] === undefined ? 1 : +m[4]];
    m = /^color\(srgb ([\d.]+) ([\d.]+) ([\d.]+)(?: \/ ([\d.]+))?\)$/.exec(s);
    return m ? [m[1] * 255, m[2] * 255, m[3] * 255, m[4] === undefined ? 1 : +m[4]] : null;
  };
  const over = (c, under, share) => c.slice(0, 3).map((v, i) => v * c[3] * share + under[i] * (1 - c[3] * share));
  const light = (c) => {
    const l = c.map((v) => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; });
    return 0.2126 * l[0] + 0.7152 * l[1] + 0.0722 * l[2];
  };
  const contrast = (a, b) => { const [x, y] = [light(a), light(b)]; return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05); };
  const paper = (e) => {
    for (let at = e; at; at = at.parentElement) {
      const c = colour(getComputedStyle(at).backgroundColor);
      if (c && c[3] > 0.99) return c.slice(0, 3);
    }
    return [255, 255, 255];
  };
  const seethrough = (e) => { let o = 1; for (let at = e; at; at = at.parentElement) o *= +getComputedStyle(at).opacity; return o; };
  // the shape that lies right under the middle of a text
  const under = (t) => {
    let c = paper(t.e);
    if (!t.svg || t.e.classList.contains('halo')) return c;
    const x = (t.box.left + t.box.right) / 2, y = (t.box.top + t.box.bottom) / 2;
    for (const s of t.svg.querySelectorAll('rect,circle')) {
      const r = s.getBoundingClientRect(), style = getComputedStyle(s), fill = colour(style.fill);
      if (fill && s.compareDocumentPosition(t.e) & 4 && x > r.left && x < r.right && y > r.top && y < r.bottom)
        c = over(fill, c, +style.fillOpacity * seethrough(s));
    }
    return c;
  };
  for (const t of texts) {
    const c = colour(t.svg ? t.style.fill : t.style.color);
    if (!c) { wrong(`"${t.text}": what colour is ${t.style.color}?`); continue; }
    const back = under(t), is = contrast(over(c, back, seethrough(t.e)), back);
    if (is < 4.5) wrong(`"${t.text}" has contrast ${is.toFixed(2)}`);
  }
  // gridlines and the casing of lines are no information
  for (const s of document.querySelectorAll('svg line,svg rect,svg circle,svg path')) {
    if (!shown(s) || s.matches('.grid,.case')) continue;
    const style = getComputedStyle(s), back = paper(s.closest('svg')), o = seethrough(s);
    let best = 0;
    for (const [paint, share] of [[style.fill, style.fillOpacity], [style.stroke, style.strokeOpacity]]) {
      const c = colour(paint);
      if (c && !(s.tagName === 'line' && paint === style.fill)) best = Math.max(best, contrast(over(c, back, share * o), back));
    }
    if (best < 3) wrong(`a mark of class "${s.getAttribute('class')}" has contrast ${best.toFixed(2)}`);
  }
  for (const s of document.querySelectorAll('.bx,.bl,.f i,.sw')) {
    if (!shown(s)) continue;
    const style = getComputedStyle(s), back = paper(s.parentElement);
    const is = Math.max(...['borderTopColor', 'borderBottomColor', 'backgroundColor'].map((k) => {
      const c = colour(style[k]);
      return c && c[3] > 0 && (k === 'backgroundColor' || parseFloat(style[k.replace('Color', 'Width')]) > 0) ? contrast(over(c, back, 1), back) : 0;
    }));
    if (is < 3) wrong(`a box "${s.className}" has contrast ${is.toFixed(2)}`);
  }

  // ---- every drawing has something drawn, or says why not
  for (const s of document.querySelectorAll('svg')) {
    if (!shown(s)) continue;
    const name = s.querySelector('title') ? s.querySelector('title').textContent : 'a small drawing';
    const marks = [...s.querySelectorAll('line,rect,circle,path')].filter((m) => {
      if (m.matches('.grid,.axis,.now,.lim,.case')) return false;
      const r = m.getBoundingClientRect();
      return r.width + r.height > 1;
    });
    if (!marks.length && !s.querySelector('.why') && s.getAttribute('aria-hidden') !== 'true') wrong(`${name}: nothing is drawn`);
    const f = s.getBoundingClientRect();
    if (f.width < 60 || f.height < 12) wrong(`${name}: ${f.width} by ${f.height} pixels`);
    for (const m of marks) {
      const r = m.getBoundingClientRect();
      if (r.left < f.left - 3 || r.right > f.right + 3 || r.top < f.top - 3 || r.bottom > f.bottom + 3) wrong(`${name}: a mark leaves the drawing`);
    }
  }
  return { faults, texts: texts.length, svgs: [...document.querySelectorAll('svg')].filter(shown).length,
           height: document.documentElement.scrollHeight,
           charts: Object.fromEntries([...document.querySelectorAll('section')].map((s) =>
             [s.id, [...s.querySelectorAll('svg[role=img]')].filter(shown).length])) };
})()
