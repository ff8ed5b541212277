/**
 * The page's look. Light and dark by the reader's own setting, a print form, nothing loaded from elsewhere.
 * Text colours have a contrast of at least 4.5 on their grounds (WCAG 2.2, 1.4.3).
 */
export const styleSheet = `
:root{color-scheme:light dark;--paper:#fff;--ink:#22292f;--heading:#243b4a;--accent:#0b6a70;--quiet:#56626c;--line:#c3ccd3;--head:#e4eaee;--band:#f6f8f9;--good:#17663a;--bad:#a8201a;--caution:#7a4f00;--good-fill:#edf6f0;--bad-fill:#fbeeed;--caution-fill:#fcf5e3;--quiet-fill:#f3f5f6}
@media (prefers-color-scheme:dark){:root{--paper:#14191d;--ink:#dde3e8;--heading:#c5dbe8;--accent:#6cc7cc;--quiet:#a3afb8;--line:#3c4750;--head:#232c33;--band:#191f24;--good:#7fd3a0;--bad:#f39a93;--caution:#e6bf6b;--good-fill:#16281d;--bad-fill:#2f1a19;--caution-fill:#2b2312;--quiet-fill:#1e252a}}
*{box-sizing:border-box}
html{scroll-padding-top:1rem}
body{margin:0;background:var(--paper);color:var(--ink);font:1rem/1.55 Calibri,Carlito,"Segoe UI",system-ui,sans-serif;overflow-wrap:break-word}
main{max-width:68rem;margin:0 auto;padding:2rem 1.25rem 4rem}
#text>p,#text>ul,#text>ol,#text>blockquote,#text>.notice{max-width:46rem}
h1,h2,h3,h4,h5,h6{color:var(--heading);line-height:1.25;margin:2.2em 0 .6em}
h1{font-size:2.1rem;margin:.2em 0}
h2{font-size:1.5rem}h3{font-size:1.2rem}h4,h5,h6{font-size:1.05rem}
.number{display:inline-block;min-width:1.3em;margin-right:.35em}nav .number{min-width:2.2em}
header{border-top:6px solid var(--accent);padding-top:1rem;margin-bottom:2rem}
header p{margin:.2em 0}
.maker{font-weight:700}.product{color:var(--accent);font-size:1.15rem;margin-top:1.6rem}.subtitle{color:var(--quiet);font-size:1.15rem}
a{color:var(--accent)}
a.record{text-decoration-thickness:1px;text-underline-offset:.2em}
.record{white-space:nowrap}
:focus-visible{outline:3px solid var(--accent);outline-offset:2px}
.skip{position:absolute;left:-99rem;top:0;background:var(--paper);padding:.5rem 1rem}.skip:focus{left:0}
nav ol{list-style:none;padding-left:0;margin:.5rem 0}nav li{margin:.2rem 0}nav .level-2{padding-left:1.6rem}nav .level-3{padding-left:3.2rem}
nav a{text-decoration:none}nav a:hover{text-decoration:underline}
.scroll{overflow:auto;max-height:85vh;margin:1rem 0 1.6rem;border-bottom:2px solid var(--line)}
table{border-collapse:separate;border-spacing:0;width:100%;font-size:.94rem}
caption,figcaption{text-align:left;font-weight:700;color:var(--heading);padding:.4rem 0}
th,td{text-align:left;vertical-align:top;padding:.4rem .6rem;border-bottom:1px solid var(--line)}
thead th{position:sticky;top:0;background:var(--head);color:var(--heading);vertical-align:bottom;border-bottom:2px solid var(--line)}
tbody tr:nth-child(even) td{background:var(--band)}
.right{text-align:right;font-variant-numeric:tabular-nums}.center{text-align:center}
.particulars{margin:1rem 0 1.6rem;max-width:52rem}.particulars th{width:28%;color:var(--heading)}.particulars tbody tr:nth-child(even) td{background:none}
figure{margin:1.5rem 0}figure img{max-width:100%;height:auto;background:#fff}
pre{overflow:auto;tab-size:4;background:var(--quiet-fill);border:1px solid var(--line);padding:.7rem .9rem}
code{font-family:"Courier New","Liberation Mono",monospace;font-size:.92em}
blockquote{margin:1rem 0;padding:.1rem 1rem;border-left:4px solid var(--line);color:var(--quiet)}
.notice{margin:1.2rem 0;padding:.1rem 1rem;border-left:5px solid var(--quiet);background:var(--quiet-fill)}
.tone-good{color:var(--good);font-weight:700}.tone-bad{color:var(--bad);font-weight:700}.tone-caution{color:var(--caution);font-weight:700}.tone-quiet{color:var(--quiet)}
.notice-good{border-color:var(--good);background:var(--good-fill)}.notice-bad{border-color:var(--bad);background:var(--bad-fill)}.notice-caution{border-color:var(--caution);background:var(--caution-fill)}
li.task{list-style:none;margin-left:-1.4em}
hr{border:0;border-top:1px solid var(--line);margin:1.6rem 0}
.notes,.origin{margin-top:3rem;border-top:1px solid var(--line);font-size:.94rem}
body>footer{max-width:68rem;margin:0 auto;padding:0 1.25rem 2rem;color:var(--quiet);font-size:.94rem}
@media print{
@page{size:A4;margin:20mm 18mm}@page wide{size:A4 landscape}
:root{color-scheme:light;--paper:#fff;--ink:#22292f;--heading:#243b4a;--accent:#0b6a70;--quiet:#56626c;--line:#c3ccd3;--head:#e4eaee;--band:#f6f8f9;--good:#17663a;--bad:#a8201a;--caution:#7a4f00;--good-fill:#edf6f0;--bad-fill:#fbeeed;--caution-fill:#fcf5e3;--quiet-fill:#f3f5f6}
body{font-size:10.5pt}main{max-width:none;padding:0}.skip{display:none}
.scroll{overflow:visible;max-height:none}thead{display:table-header-group}thead th{position:static}tr,figure{break-inside:avoid}h2,h3,h4{break-after:avoid}
.landscape{page:wide}.page-break{break-after:page}
}
`;
