// The sheet's style as text, from sheet.css: npx tsx extension/build/sheetCss.ts

export const SHEET_CSS: string = `/* The setup sheet's own look: on paper, in a browser, and (with page.css over it) in the pane.
   Colours for data: the eight-colour palette of Okabe and Ito ("Color Universal Design", 2008), made for colour-blind readers.
   Everything that differs by colour differs by form or word as well. */

:root {
  --paper: #fdfcfa;
  --wash: #f4f2ec;
  --ink: #1c2026;
  --ink-soft: #545b64;
  --rule: #dcd9d0;
  --rule-strong: #8c9096;
  --main: #0072b2; /* blue */
  --sub: #d55e00; /* vermillion */
  --seat: #007d5b; /* bluish green, darkened for thin lines */
  --other: #cc79a7; /* reddish purple */
  --focus: #0072b2;
  --bad: #b84f00;
  --good: #00775a;
  --text: "Source Sans 3", "Segoe UI", "Helvetica Neue", "Noto Sans", "DejaVu Sans", sans-serif;
  --display:
    Charter, "Bitstream Charter", "Iowan Old Style", Cambria, Georgia, "DejaVu Serif", serif;
  --code: "Cascadia Mono", "SF Mono", Consolas, "DejaVu Sans Mono", monospace;
}

@media (prefers-color-scheme: dark) {
  :root {
    --paper: #15181c;
    --wash: #1e2227;
    --ink: #e9e7e2;
    --ink-soft: #a9afb7;
    --rule: #343a42;
    --rule-strong: #767d86;
    --main: #56b4e9; /* sky blue */
    --sub: #e69f00; /* orange */
    --seat: #3fb88f; /* bluish green, lightened */
    --focus: #56b4e9;
    --bad: #f08a3c;
    --good: #3fb88f;
  }
}

* {
  box-sizing: border-box;
}

body {
  margin: 0;
  background: var(--paper);
  color: var(--ink);
  font: 15px / 1.5 var(--text);
  -webkit-text-size-adjust: 100%;
}

.sheet {
  container: sheet / inline-size;
  counter-reset: part;
  max-width: 1120px;
  margin: 0 auto;
  padding: 28px clamp(14px, 4vw, 44px) 60px;
  font-variant-numeric: tabular-nums lining-nums;
}

h1,
h2,
h3,
p,
ul,
ol,
dl,
dd,
figure {
  margin: 0;
  padding: 0;
}

code,
.dial {
  font-family: var(--code);
  font-size: 0.9em;
}

.unseen {
  position: absolute;
  width: 1px;
  height: 1px;
  overflow: hidden;
  clip-path: inset(50%);
  white-space: nowrap;
}

.hatches {
  position: absolute;
}

/* Title */

.title {
  padding-bottom: 12px;
  border-bottom: 3px double var(--rule-strong);
}

.title .kind,
.title .file-name {
  color: var(--ink-soft);
  font-size: 0.87em;
}

.title h1 {
  font: 600 1.9em / 1.2 var(--display);
  letter-spacing: -0.005em;
  overflow-wrap: anywhere;
}

.title .file-name {
  font-family: var(--code);
  font-size: 0.8em;
  margin-top: 4px;
  overflow-wrap: anywhere;
}

/* Sections */

.part {
  counter-increment: part;
  margin-top: 34px;
  padding-top: 12px;
  border-top: 1px solid var(--rule-strong);
}

.part-head h2,
.glance h2 {
  font: 600 1.22em / 1.25 var(--display);
}

.part-head h2::before {
  content: counter(part) " ";
  margin-right: 0.35em;
  color: var(--ink-soft);
  font-weight: 400;
}

.brief {
  margin-top: 4px;
  color: var(--ink-soft);
  font-size: 0.87em;
  line-height: 1.42;
  max-width: 62ch;
  text-wrap: pretty;
}

.part-body {
  margin-top: 14px;
  min-width: 0;
}

.fold > * + * {
  margin-top: 12px;
}

.part-body > * + *,
.part-body > div > * + * {
  margin-top: 14px;
}

h3 {
  font: 600 1em / 1.35 var(--text);
}

.part-body > .columns > * {
  margin-top: 0;
}

.part-body > * + h3,
.part-body > * + div > h3:first-child,
.part-body > * + .crossover {
  margin-top: 22px;
}

@container sheet (min-width: 860px) {
  .part {
    display: grid;
    grid-template-columns: 188px minmax(0, 1fr);
    column-gap: 28px;
  }
  .part-body {
    margin-top: 2px;
  }
}

/* Facts */

.glance {
  padding-top: 16px;
}

.glance h2 {
  margin-bottom: 10px;
}

.facts {
  display: grid;
  grid-template-columns: repeat(auto-fill, minmax(min(100%, 150px), 1fr));
  gap: 12px 26px;
}

.glance .facts {
  grid-template-columns: repeat(auto-fill, minmax(min(100%, 200px), 1fr));
}

@container sheet (max-width: 460px) {
  .glance .facts {
    grid-template-columns: repeat(2, minmax(0, 1fr));
    column-gap: 16px;
  }
}

.fact {
  padding-top: 7px;
  border-top: 1px solid var(--rule);
}

.fact dt {
  color: var(--ink-soft);
  font-size: 0.82em;
}

.fact dd {
  font-size: 1.06em;
  line-height: 1.35;
}

.note {
  display: block;
  color: var(--ink-soft);
  font-size: 0.86em;
  font-weight: 400;
  font-style: normal;
  line-height: 1.36;
  text-wrap: pretty;
}

td .note,
th .note {
  font-size: 0.95em;
}

.fact .note {
  font-size: 0.8em;
}

.value {
  font-weight: 600;
}

.value-predicted {
  font-style: italic;
  font-weight: 500;
  border-bottom: 1.5px dotted var(--rule-strong);
}

.value-measured {
  padding: 0 5px;
  border: 1px solid var(--ink-soft);
}

.standing {
  color: var(--ink-soft);
  font-size: 0.72em;
  font-weight: 400;
  white-space: nowrap;
}

.key-to-figures {
  margin-top: 14px;
  color: var(--ink-soft);
  font-size: 0.82em;
}

.key-to-figures .value {
  font-weight: inherit;
}

.missing {
  color: var(--ink-soft);
  font-style: italic;
}

.caution {
  padding: 6px 0 6px 12px;
  border-left: 4px double var(--sub);
}

.caveat {
  color: var(--ink-soft);
  font-size: 0.9em;
  max-width: 72ch;
}

/* Ways to the source */

.to-source {
  color: inherit;
  font: inherit;
}

button.to-source {
  display: inline;
  padding: 0;
  border: 0;
  background: none;
  text-align: inherit;
  cursor: pointer;
}

button.to-source:hover {
  text-decoration: underline;
  text-decoration-thickness: 1px;
  text-underline-offset: 3px;
}

:focus-visible {
  outline: 2px solid var(--focus);
  outline-offset: 2px;
}

/* Tables */

.wide {
  /* What is unseen in a table scrolls with it. */
  position: relative;
  overflow-x: auto;
  scrollbar-width: thin;
}

/* A table that scrolls sideways may as well let its words stand beside each other. */
@container sheet (max-width: 560px) {
  .wide td:not(.number) {
    min-width: 7.5em;
  }
  .wide td:last-child:not(.number):not(:only-child) {
    min-width: 13em;
  }
}

table {
  width: 100%;
  border-collapse: collapse;
  font-size: 0.87em;
  line-height: 1.38;
}

th,
td {
  padding: 5px 14px 5px 0;
  border-bottom: 1px solid var(--rule);
  text-align: left;
  vertical-align: top;
}

th:last-child,
td:last-child {
  padding-right: 2px;
}

thead th {
  border-bottom-color: var(--rule-strong);
  color: var(--ink-soft);
  font-size: 0.92em;
  font-weight: 400;
  vertical-align: bottom;
}

tbody th {
  font-weight: 600;
  white-space: nowrap;
}

.tight td,
.tight .note {
  white-space: nowrap;
}

.tight th,
.tight td {
  padding-right: 11px;
}

.tight th[scope="row"] {
  min-width: 7em;
  white-space: normal;
}

.dial-in {
  min-width: 11.5em;
}

@container sheet (max-width: 620px) {
  .wide th:first-child:not([colspan]) {
    position: sticky;
    left: 0;
    max-width: 9.5em;
    background: var(--paper);
    white-space: normal;
    overflow-wrap: break-word;
  }
  .dial-in {
    min-width: 8.5em;
  }
  /* Out of sight at first: wide, so that it does not make the rows tall. */
  .why {
    min-width: 46em;
  }
}

td > code {
  white-space: nowrap;
}

.number {
  text-align: right;
}

td.number,
th.number[scope="row"] {
  white-space: nowrap;
}

.state {
  white-space: nowrap;
}

.state .note {
  white-space: normal;
  min-width: 9em;
}

.why {
  min-width: 14em;
}

.group th {
  padding-top: 16px;
  border-bottom-color: var(--rule-strong);
  font-size: 1.08em;
}

.plain {
  list-style: none;
}

.dial {
  font-weight: 600;
  white-space: nowrap;
}

.advice-differs .dial {
  padding: 0 4px;
  border: 1px solid var(--bad);
}

.apply {
  display: block;
  margin-top: 3px;
  padding: 1px 8px;
  border: 1px solid var(--rule-strong);
  border-radius: 2px;
  background: var(--wash);
  color: var(--ink);
  font: inherit;
  font-size: 0.95em;
  cursor: pointer;
}

.apply:hover {
  border-color: var(--ink);
}

/* Marks */

.mark {
  vertical-align: -1px;
  margin-right: 3px;
  fill: none;
  stroke: currentColor;
  stroke-width: 1.6;
  stroke-linecap: round;
  stroke-linejoin: round;
}

.mark-agrees {
  color: var(--good);
  stroke-width: 2;
}

.mark-differs,
.mark-error {
  color: var(--bad);
}

.mark-warning {
  color: var(--bad);
}

.mark-information,
.mark-hint,
.mark-open {
  color: var(--ink-soft);
  stroke-width: 1.3;
}

/* Folds */

.fold > summary {
  padding: 3px 0;
  color: var(--ink-soft);
  font-size: 0.9em;
  cursor: pointer;
}

.fold > summary:hover {
  color: var(--ink);
}

.fold[open] > summary {
  margin-bottom: 8px;
}

/* Drawings */

svg text {
  fill: var(--ink-soft);
  font-family: inherit;
  font-size: 11px;
}

.drawing {
  display: block;
  max-width: 100%;
  height: auto;
}

.room-grid {
  display: grid;
  grid-template-columns: minmax(0, 1fr);
  gap: 22px 32px;
  align-items: start;
}

.room-grid .facts {
  margin-top: 16px;
}

@container sheet (min-width: 760px) {
  .room-grid {
    grid-template-columns: minmax(0, 440fr) minmax(0, 360fr);
  }
}

figcaption {
  margin-top: 6px;
  color: var(--ink-soft);
  font-size: 0.82em;
}

.legend {
  display: flex;
  flex-wrap: wrap;
  gap: 3px 18px;
  list-style: none;
}

.legend svg {
  vertical-align: -1px;
  margin-right: 6px;
  overflow: visible;
}

.floor {
  fill: var(--wash);
}

.metres {
  fill: url("#metres");
}

.metre-grid {
  fill: none;
  stroke: var(--rule);
  stroke-width: 0.6;
}

.wall {
  fill: none;
  stroke: var(--ink);
  stroke-width: 2.6;
  stroke-linecap: square;
  stroke-linejoin: miter;
}

.wall-name {
  letter-spacing: 0.06em;
}

.dimension path,
.scale-bar path {
  fill: none;
  stroke: var(--ink-soft);
  stroke-width: 0.8;
}

.fixture rect,
.fixture-keep_clear.key {
  fill: none;
  stroke: var(--rule-strong);
  stroke-width: 0.9;
}

.fixture-keep_clear rect,
.fixture-keep_clear.key {
  fill: url("#hatch");
  stroke-dasharray: 4 3;
}

.fixture-obstacle rect {
  fill: var(--paper);
}

.fixture-panel {
  fill: none;
  stroke: var(--ink-soft);
  stroke-width: 6;
  stroke-dasharray: 1.5 1.5;
}

.hatch-line {
  fill: none;
  stroke: var(--rule-strong);
  stroke-width: 0.7;
  opacity: 0.75;
}

.hatch-latency {
  fill: none;
  stroke: var(--main);
  stroke-width: 1;
}

.sight {
  stroke: var(--ink-soft);
  stroke-width: 0.7;
  stroke-dasharray: 5 4;
}

.sight-subwoofer {
  stroke-dasharray: 1.5 3.5;
}

.thing .body,
.thing-speaker.key,
.thing-subwoofer.key,
.thing-seat.key {
  fill: var(--paper);
  stroke-width: 1.4;
}

.thing-speaker .body,
.thing-speaker .front,
.thing-speaker.key {
  stroke: var(--main);
}

.thing-speaker .front {
  fill: none;
  stroke-width: 3.4;
}

.thing-subwoofer .body,
.thing-subwoofer .cone,
.thing-subwoofer.key {
  stroke: var(--sub);
}

.thing-subwoofer .cone {
  fill: none;
  stroke-width: 1.4;
}

.thing-seat .body,
.thing-seat .nose,
.thing-seat.key {
  stroke: var(--seat);
}

.thing-seat .nose {
  fill: none;
  stroke-width: 1.4;
  stroke-linejoin: round;
}

.thing-reference .centre {
  fill: var(--seat);
}

.thing-speaker .centre {
  fill: var(--main);
}

.thing-raised .body {
  stroke-dasharray: 3 2;
}

.thing-guessed .body {
  stroke-dasharray: 2 2.4;
}

.leader {
  fill: none;
  stroke: var(--ink-soft);
  stroke-width: 0.7;
}

.label {
  paint-order: stroke;
  stroke: var(--wash);
  stroke-width: 3px;
  stroke-linejoin: round;
}

.label-name {
  fill: var(--ink);
  font-size: 12px;
  font-weight: 600;
}

.label-line,
.label-fixture {
  font-size: 10.5px;
}

.wanted path,
.wanted.key {
  fill: var(--other);
  stroke: none;
  opacity: 0.75;
}

.ear-line {
  stroke: var(--seat);
  stroke-width: 0.9;
  stroke-dasharray: 1.5 4;
}

/* Charts */

.plot {
  display: grid;
  grid-template-columns: 46px minmax(0, 1fr);
  padding-right: 14px;
}

.plot-field,
.plot-up {
  display: block;
  overflow: visible;
}

.axis-title {
  fill: var(--ink-soft);
  font-style: italic;
}

.grid {
  stroke: var(--rule);
  stroke-width: 0.6;
}

.grid-worded {
  stroke-width: 1;
}

.axis {
  stroke: var(--rule-strong);
  stroke-width: 1;
}

.curve {
  fill: none;
  stroke: var(--ink);
  stroke-width: 1.6;
  stroke-linejoin: round;
  vector-effect: non-scaling-stroke;
}

.curve-main {
  stroke: var(--main);
}

.curve-sub {
  stroke: var(--sub);
  stroke-dasharray: 7 3;
}

.curve-sum {
  stroke-width: 2.8;
}

.curve-practice {
  stroke: var(--other);
  stroke-width: 2;
  stroke-dasharray: 2 3;
}

.curve-best {
  stroke: var(--seat);
  stroke-width: 2;
  stroke-dasharray: 10 3 2 3;
}

/* Predicted never looks like measured: what was measured is a thick unbroken line, what is planned a thin broken one. */
.curve-measured {
  stroke-width: 2.4;
}

.curve-planned {
  stroke: var(--main);
  stroke-width: 1.6;
  stroke-dasharray: 3 4;
}

/* Reckoned on a measurement: between the two. */
.curve-after {
  stroke: var(--main);
  stroke-width: 2.2;
  stroke-dasharray: 8 3;
}

.decay-mark {
  fill: var(--paper);
  stroke: var(--ink);
  stroke-width: 1.6;
}

.decay-mark-1 {
  fill: var(--main);
  stroke: var(--main);
}

.decay-mark-2 {
  stroke: var(--sub);
}

.decay-mark-3 {
  fill: var(--seat);
  stroke: var(--seat);
}

.noise-curve {
  fill: none;
  vector-effect: non-scaling-stroke;
  stroke: var(--ink);
  stroke-width: 1.6;
}

.noise-preferred {
  stroke-dasharray: 3 4;
}

.envelope {
  fill: color-mix(in srgb, var(--ink) 15%, transparent);
  stroke: none;
}

h4 {
  margin: 0 0 4px;
  font: 600 0.93em / 1.35 var(--text);
}

.charts {
  grid-template-columns: repeat(auto-fit, minmax(min(100%, 330px), 1fr));
}

.slice {
  stroke: var(--ink);
}

.slice-0 {
  stroke-width: 2.6;
}

.slice-1 {
  stroke: var(--main);
  stroke-width: 2;
}

.slice-2 {
  stroke: var(--main);
  stroke-width: 1.5;
  stroke-dasharray: 7 3;
}

.slice-3 {
  stroke: var(--sub);
  stroke-width: 1.5;
  stroke-dasharray: 4 3;
}

.slice-4 {
  stroke: var(--sub);
  stroke-width: 1.2;
  stroke-dasharray: 2 3;
}

.shared {
  fill: url("#hatch");
  opacity: 0.7;
}

.plan-map .wall {
  stroke-width: 2;
}

.pressure path {
  stroke: none;
}

.pressure-key {
  display: inline-flex;
  align-items: center;
  gap: 6px;
  white-space: nowrap;
}

.crossover-line {
  stroke: var(--ink-soft);
  stroke-dasharray: 2 2;
}

.overlap {
  fill: var(--wash);
}

.mark-text {
  fill: var(--ink);
}

.mode line {
  stroke: var(--ink-soft);
  stroke-width: 1;
}

.mode path,
path.mode {
  fill: var(--paper);
  stroke: var(--ink-soft);
  stroke-width: 1.1;
}

.mode-axial line {
  stroke: var(--main);
  stroke-width: 2;
}

.mode-axial path,
path.mode-axial {
  fill: var(--main);
  stroke: var(--main);
}

.mode-tangential line {
  stroke: var(--sub);
}

.mode-tangential path,
path.mode-tangential {
  stroke: var(--sub);
}

.mode-other line {
  stroke: var(--main);
  stroke-width: 1.6;
}

.mode-other path,
path.mode-other {
  fill: var(--main);
  stroke: var(--main);
}

.mode-oblique line {
  stroke: var(--rule-strong);
  stroke-width: 0.7;
}

.mode-oblique path,
path.mode-oblique {
  fill: none;
  stroke: var(--rule-strong);
}

.schroeder rect {
  fill: var(--wash);
}

.bars > ul {
  display: grid;
  grid-template-columns: max-content minmax(0, 1fr) max-content;
  column-gap: 12px;
  list-style: none;
}

.bars > ul > li {
  display: grid;
  grid-column: 1 / -1;
  grid-template-columns: subgrid;
  align-items: center;
  padding: 2px 0;
  font-size: 0.9em;
}

.bar {
  display: block;
}

.bar-figure {
  text-align: right;
  font-style: italic;
}

.piece {
  stroke: var(--main);
  stroke-width: 1;
}

.piece-flight {
  fill: var(--main);
}

.piece-latency {
  fill: url("#hatch-back");
}

.piece-delay {
  fill: var(--paper);
}

/* Wiring */

.wire-line {
  fill: none;
  stroke: var(--ink-soft);
  stroke-width: 1.1;
}

.wire-reach {
  fill: none;
  stroke: transparent;
  stroke-width: 9;
}

.wire:hover .wire-line {
  stroke: var(--ink);
  stroke-width: 2;
}

.node rect {
  fill: var(--paper);
  stroke: var(--rule-strong);
  stroke-width: 1.2;
}

.node-speaker rect {
  stroke: var(--main);
}

.node-subwoofer rect {
  stroke: var(--sub);
  stroke-width: 1.8;
}

.node text.node-name {
  fill: var(--ink);
  font-size: 12px;
  font-weight: 600;
}

.port text {
  font-size: 9.5px;
}

.port circle {
  fill: var(--paper);
  stroke: var(--ink-soft);
}

.drawing.wiring {
  max-width: none;
}

/* Lists */

.columns {
  display: grid;
  grid-template-columns: repeat(auto-fit, minmax(min(100%, 260px), 1fr));
  gap: 14px 36px;
}

.steps {
  margin-top: 6px;
  padding-left: 1.7em;
}

.steps li + li {
  margin-top: 5px;
}

.findings ul,
ul.findings {
  list-style: none;
}

.findings h3 {
  margin-bottom: 4px;
}

.finding {
  padding: 8px 0 9px 20px;
  border-bottom: 1px solid var(--rule);
  font-size: 0.93em;
  line-height: 1.42;
}

.findings .message {
  font-weight: 600;
}

.where,
.accepted {
  color: var(--ink-soft);
  font-size: 0.86em;
  overflow-wrap: anywhere;
}

.where > * + *::before {
  content: "· ";
}

.where cite {
  font-style: normal;
}

.notes > div,
.reasons > div {
  padding: 5px 0;
  border-bottom: 1px solid var(--rule);
  font-size: 0.92em;
}

.notes dt,
.reasons dt {
  color: var(--ink-soft);
  font-size: 0.9em;
  overflow-wrap: anywhere;
}

.notes dt {
  font-family: var(--code);
  font-size: 0.82em;
}

@container sheet (min-width: 620px) {
  .notes > div,
  .reasons > div {
    display: grid;
    grid-template-columns: 15em minmax(0, 1fr);
    column-gap: 18px;
  }
  .reasons dd {
    grid-column: 2;
  }
}

.cautions {
  list-style: none;
}

.cautions li + li {
  margin-top: 8px;
}

.sign-lines > div {
  display: grid;
  grid-template-columns: 9em minmax(0, 24em);
  align-items: end;
  min-height: 34px;
}

.sign-lines dt {
  color: var(--ink-soft);
}

.sign-lines dd {
  border-bottom: 1px solid var(--ink-soft);
}

.fingerprint code {
  font-size: 1.05em;
}

.fingerprint .note,
.sign-off-state .note {
  display: block;
}

.boxes {
  display: inline-grid;
  gap: 2px;
}

/* A box to tick by hand, drawn so that it prints without its background. */
.box::before {
  content: "";
  display: inline-block;
  width: 0.8em;
  height: 0.8em;
  margin-right: 0.45em;
  border: 1px solid var(--ink);
  vertical-align: -0.06em;
}

/* The words for screen readers in it stay inside the table that scrolls. */
.by-hand {
  position: relative;
  min-width: 9em;
  border-bottom: 1px solid var(--ink-soft);
}

/* Paper */

@page {
  margin: 14mm 14mm 17mm;
  @bottom-right {
    content: counter(page) " / " counter(pages);
    font: 8pt sans-serif;
  }
}

@media print {
  :root {
    --paper: #fff;
    --wash: #f5f4f0;
    --ink: #000;
    --ink-soft: #444;
    --rule: #ccc;
    --rule-strong: #777;
    --main: #0072b2;
    --sub: #d55e00;
    --seat: #007d5b;
    --bad: #b84f00;
    --good: #00775a;
  }
  body {
    font-size: 9.4pt;
    print-color-adjust: exact;
  }
  .sheet {
    max-width: none;
    padding: 0;
  }
  .part {
    margin-top: 20px;
  }
  .room-grid {
    grid-template-columns: minmax(0, 1fr) minmax(0, 0.82fr);
  }
  h2,
  h3,
  .part-head {
    break-after: avoid;
  }
  figure,
  tr,
  li,
  .fact,
  .drawing,
  .plot,
  .caution,
  .part-head,
  #sign-off,
  .drift > div {
    break-inside: avoid;
  }
  thead {
    display: table-header-group;
  }
  .wide {
    overflow: visible;
  }
  table {
    font-size: 7.9pt;
  }
  th,
  td {
    padding: 3px 9px 3px 0;
  }
  .why,
  .dial-in {
    min-width: 0;
  }
  .drawing.plan {
    width: auto;
    max-height: 112mm;
  }
  .crossover > h3,
  h4,
  .crossover > h3 + p,
  .part-body > h3 + p {
    break-after: avoid;
  }
  .room-grid .facts {
    grid-template-columns: repeat(2, minmax(0, 1fr));
  }
  .fold::details-content {
    content-visibility: visible;
    block-size: auto;
  }
  .fold > summary {
    list-style: none;
    break-after: avoid;
  }
  .fold-long {
    display: none;
  }
  .drawing.wiring {
    max-width: 100%;
    max-height: 235mm;
  }
}

@media (prefers-reduced-motion: no-preference) {
  .sheet {
    scroll-behavior: smooth;
  }
}
`;
