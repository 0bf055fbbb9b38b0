/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/page/style.h"

#include "format/page/palette.h"

static const char screen_style[] =
    "*{box-sizing:border-box}\n"
    "body{margin:0;background:var(--paper);color:var(--ink);"
    "font:16px/1.5 system-ui,\"Noto Sans\",\"DejaVu Sans\",sans-serif}\n"
    "header,main,footer,nav{max-width:66rem;margin:0 auto;padding:0 1.25rem}\n"
    "h1{font-size:1.7rem;line-height:1.2;margin:1.6rem 0 .2rem}\n"
    "h2{font-size:1.35rem;margin:2.4rem 0 .4rem;padding-top:.5rem;border-top:3px solid "
    "var(--steel)}\n"
    "h3{font-size:1.1rem;margin:1.8rem 0 .4rem}\n"
    "h4{font-size:1rem;margin:1.2rem 0 .3rem}\n"
    "p,li{max-width:46rem}\n"
    "h1,h2,h3,p,li{overflow-wrap:anywhere}th,td{overflow-wrap:break-word}\n"
    ".note,footer{color:var(--muted);font-size:.9em}\n"
    ".warning{font-weight:600}.warning::marker{content:\"!\\a0 \"}\n"
    "a{color:var(--steel)}\n"
    ":focus-visible{outline:3px solid var(--ochre);outline-offset:2px}\n"
    "nav.cases ul{display:flex;flex-wrap:wrap;gap:.5rem;list-style:none;padding:0;margin:1rem 0}\n"
    "nav.cases a{display:block;padding:.4rem .8rem;border:1px solid var(--edge);"
    "text-decoration:none;color:var(--ink);background:var(--card)}\n"
    "nav.cases a[aria-current]{border-color:var(--steel);box-shadow:inset 0 -4px 0 var(--steel);"
    "font-weight:600}\n"
    ".charts.single{grid-template-columns:1fr!important}.single svg{margin:0}\n"
    ".charts{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,25rem),1fr));"
    "gap:1.2rem;align-items:start}\n"
    "figure{margin:.6rem 0;border:1px solid var(--rule);padding:.4rem;min-width:0}\n"
    "figure svg{display:block;width:100%;height:auto;max-width:40rem;margin:0 auto}\n"
    "figcaption{font-weight:600;padding:.2rem .4rem}\n";

static const char table_style[] =
    /* shadows at the sides show that a table can be scrolled; they are covered at its ends */
    ".wide{overflow-x:auto;margin:.8rem 0;background:linear-gradient(to right,var(--paper) 40%,"
    "transparent),linear-gradient(to left,var(--paper) 40%,transparent) 100% 0,linear-gradient(to "
    "right,var(--rule),transparent),linear-gradient(to left,var(--rule),transparent) 100% 0;"
    "background-repeat:no-repeat;background-size:2rem 100%,2rem 100%,.6rem 100%,.6rem 100%;"
    "background-attachment:local,local,scroll,scroll}\n"
    "table{border-collapse:collapse;width:100%;font-size:.9rem}\n"
    "caption{text-align:left;font-weight:600;padding:.3rem 0}\n"
    "th,td{padding:.3rem .4rem;border-bottom:1px solid var(--rule);text-align:left;"
    "vertical-align:top;min-width:2.6rem}\n"
    "thead th{border-bottom:2px solid var(--edge);vertical-align:bottom;font-weight:600;"
    "overflow-wrap:normal}\n"
    "tbody th{font-weight:400;min-width:8rem;overflow-wrap:anywhere}\n"
    ".n{text-align:right;font-variant-numeric:tabular-nums;white-space:nowrap}\n"
    "thead .n{white-space:normal}\n"
    ".p{min-width:11rem}\n"
    ".bar{min-width:6rem}.bar svg{display:block;width:100%;height:.8em;margin-top:.35em}"
    ".bar rect{fill:var(--steel)}\n"
    "li>bdi:first-child{font-weight:600}\n"
    ".unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}\n"
    ".met{color:var(--moss)}.missed{color:var(--rust)}.doubtful{color:var(--ochre)}\n"
    "p.met,p.missed,p.doubtful{font-size:1.1rem;font-weight:600;background:var(--card);"
    "border-left:6px solid;padding:.5rem .8rem;margin:.6rem 0}p.doubtful{border-left-style:dashed}"
    "p.missed{border-left-style:double}small{font-weight:400}\n"
    "summary{cursor:pointer;font-weight:600;padding:.3rem 0}\n"
    "figure summary{font-size:.9rem;font-weight:400}\n"
    "details.working table{font-size:.85rem}\n"
    ".answer>summary{font-size:1.05rem;border-left:6px solid var(--steel);padding-left:.6rem}"
    ".box{display:inline-block;width:.85em;height:.85em;border:1.5px solid var(--ink);"
    "vertical-align:-.1em}\n"
    ".cautions{background:var(--card);border:1px solid var(--edge);padding:.4rem 1.2rem;"
    "margin-top:2rem}\n"
    "#tip{position:fixed;z-index:9;max-width:20rem;padding:.4rem .6rem;background:var(--ink);"
    "color:var(--paper);font-size:.85rem;pointer-events:none}\n"
    ".js .tip:hover rect,.js .tip:hover circle,.js .tip:hover path{stroke-width:2.6}\n";

static const char other_styles[] =
    "@media (max-width:40rem){body{font-size:15px}header,main,footer,nav{padding:0 .8rem}"
    "h1{font-size:1.35rem}figure{padding:.2rem;margin:.4rem 0}table{font-size:.86rem}}\n"
    "@page{margin:14mm}\n"
    /* in print: the shown case, details as they are opened but all answers, and the calculation of
     * no variant */
    "@media print{body{font-size:9pt;line-height:1.35}header,main,footer{max-width:none;padding:0 .5mm}"
    "nav,#tip{display:none!important}.case+.case .working{display:none}"
    "h2,h3,h4,caption,summary{break-after:avoid}"
    "figure,tr,.cautions{break-inside:avoid}thead{display:table-header-group}"
    ".wide{overflow:visible;background:none;break-inside:avoid}.working .wide{break-inside:auto}"
    ".p{min-width:0}ul:has(>li:nth-child(16)){columns:2}p{margin:3pt 0}"
    "table,details.working table{font-size:7.8pt}th,td{padding:1pt 3pt;min-width:0}"
    "tbody th{min-width:4rem}"
    ".charts{grid-template-columns:repeat(2,minmax(0,1fr));gap:6pt}.charts.single{max-width:60%}"
    ".answer::details-content{content-visibility:visible;block-size:auto}"
    "figure{margin:0}figure details:not([open]){display:none}"
    "h2{margin-top:9pt}h3{margin:6pt 0 2pt}p.met,p.missed,p.doubtful{padding:2pt 6pt;margin:3pt 0}"
    "a{color:inherit}p,li{max-width:none;orphans:3;widows:3}}\n";

void spt_page_style(FILE *out)
{
    fputs("<style>\n", out);
    spt_palette_properties(out);
    fputs(screen_style, out);
    fputs(table_style, out);
    spt_palette_chart_style(out);
    fputs(other_styles, out);
    fputs("</style>\n", out);
}

static const char script[] =
    "(function () {\n"
    "  'use strict';\n"
    "  var cases = [].slice.call(document.querySelectorAll('section.case'));\n"
    "  var links = [].slice.call(document.querySelectorAll('nav.cases a'));\n"
    "  function show(hash) {\n"
    "    var known = cases.some(function (c) { return '#' + c.id === hash; });\n"
    "    cases.forEach(function (c) { c.hidden = known && '#' + c.id !== hash; });\n"
    "    links.forEach(function (a) {\n"
    "      if (a.getAttribute('href') === (known ? hash : '#cases'))\n"
    "        a.setAttribute('aria-current', 'true');\n"
    "      else a.removeAttribute('aria-current');\n"
    "    });\n"
    "  }\n"
    "  links.forEach(function (a) {\n"
    "    a.addEventListener('click', function (e) {\n"
    "      e.preventDefault();\n"
    "      show(a.getAttribute('href'));\n"
    "    });\n"
    "  });\n"
    "  if (links.length) show(location.hash || '#case-0');\n"
    "  document.documentElement.classList.add('js');\n"
    "  [].forEach.call(document.querySelectorAll('.tip > title'), function (t) { t.remove(); });\n"
    "  var tip = document.createElement('div');\n"
    "  tip.id = 'tip';\n"
    "  tip.hidden = true;\n"
    "  tip.setAttribute('aria-hidden', 'true');\n"
    "  document.body.appendChild(tip);\n"
    "  function follow(e) {\n"
    "    var g = e.target.closest ? e.target.closest('[data-tip]') : null;\n"
    "    tip.hidden = !g;\n"
    "    if (!g) return;\n"
    "    tip.textContent = g.getAttribute('data-tip');\n"
    "    var x = e.clientX + 14, y = e.clientY + 14;\n"
    "    x = Math.max(4, Math.min(x, innerWidth - tip.offsetWidth - 8));\n"
    "    if (y + tip.offsetHeight + 8 > innerHeight) y = e.clientY - tip.offsetHeight - 10;\n"
    "    tip.style.left = x + 'px';\n"
    "    tip.style.top = y + 'px';\n"
    "  }\n"
    /* for those that know no ::details-content */
    "  var folds = [].slice.call(document.querySelectorAll('details.answer'));\n"
    "  addEventListener('beforeprint', function () {\n"
    "    folds = folds.filter(function (d) { return !d.open; });\n"
    "    folds.forEach(function (d) { d.open = true; });\n"
    "  });\n"
    "  addEventListener('afterprint', function () {\n"
    "    folds.forEach(function (d) { d.open = false; });\n"
    "    folds = [].slice.call(document.querySelectorAll('details.answer'));\n"
    "  });\n"
    "  document.addEventListener('pointermove', follow);\n"
    "  document.addEventListener('pointerdown', follow);\n"
    "  document.addEventListener('scroll', function () { tip.hidden = true; }, true);\n"
    "}());\n";

void spt_page_script(FILE *out)
{
    fprintf(out, "<script>\n%s</script>\n", script);
}
