#!/usr/bin/env bash
# Sets our stock planner beside two solvers of integer programs, COIN-OR's cbc and
# HiGHS, on the same jobs, and prints a table of times. It needs go, node, npm and
# cbc (Debian: coinor-cbc); HiGHS comes from npm into a temporary folder.
#
#   REPEAT=3   solve each program at least so often; the shortest time counts
#   LIMIT=60   seconds that cbc and HiGHS have for a program
#
# What is timed:
#   ours   Solve, on one core, from the job to the proved plan, by the clock.
#   cbc    the process that reads and solves, less one that reads only.
#   HiGHS  its run alone, without reading, in one process that is warm; it is built to
#          WebAssembly, which is slower than a native build.
# Of cbc and HiGHS the processor's time counts where it is less than the clock's, so
# that other work on the machine counts against ours only.
# To list the columns of the programs, part of the work in our time, costs the others
# nothing. Where strips stay short there are two programs, and their times add up.
# HiGHS stops at a gap of 1e-4 unless told not to; here it proves the optimum, as cbc
# does and as we do.
set -euo pipefail
cd "$(dirname "$0")/.."

for tool in go node npm cbc; do
  command -v "$tool" >/dev/null || { echo "$tool is not installed" >&2; exit 1; }
done
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/programs"
npm install --prefix "$work" --no-audit --no-fund --silent highs@1.15.3
ODDMENTS_PROGRAMS="$work/programs" go test ./pattern/cutting/solve -count=1 -run '^TestWritePrograms$' >&2

cat >"$work/compare.js" <<'JS'
const fs = require("fs");
const path = require("path");
const { spawnSync } = require("child_process");

const dir = path.join(__dirname, "programs");
const repeat = Number(process.env.REPEAT || 3);
const limit = Number(process.env.LIMIT || 60);

// least runs f, which gives milliseconds and a goal, and keeps the shortest time. What
// is short is run more often, for it is measured worse.
function least(f) {
  let best;
  let spent = 0;
  for (let n = 0; n < repeat || (n < 10 * repeat && spent < 1000); n++) {
    const now = f();
    spent += now.ms;
    if (!best || now.ms < best.ms) best = now;
    if (now.ms > limit * 900) break;
  }
  return best;
}

function cbcRun(args) {
  const timed = 'TIMEFORMAT="seconds %R %U %S"; time cbc "$@"';
  const out = spawnSync("bash", ["-c", timed, "cbc", ...args], { encoding: "utf8", env: { ...process.env, LC_ALL: "C" } });
  const seconds = out.stderr.match(/^seconds (\S+) (\S+) (\S+)$/m);
  if (out.status !== 0 || !seconds) throw new Error("cbc " + args.join(" ") + ": " + out.stdout + out.stderr);
  const [clock, user, system] = seconds.slice(1).map(Number);
  return { ms: 1000 * Math.min(clock, user + system), text: out.stdout };
}

function cbc(file) {
  const reading = least(() => cbcRun([file, "-quit"]));
  const solved = least(() => {
    const run = cbcRun([file, "-timeMode", "elapsed", "-seconds", String(limit), "-solve", "-quit"]);
    const proved = /Optimal solution found/.test(run.text);
    const goal = run.text.match(/Objective value:\s+(\S+)/);
    return { ms: run.ms, goal: proved && goal ? Number(goal[1]) : NaN };
  });
  return { ms: solved.ms - reading.ms, goal: solved.goal };
}

function highs(lib, text) {
  return least(() => {
    const model = lib.createModel({ format: "lp", data: text });
    try {
      model.options.set({ output_flag: false, mip_rel_gap: 0, time_limit: limit });
      const start = process.hrtime.bigint();
      const before = process.cpuUsage();
      model.run();
      const used = process.cpuUsage(before);
      const ms = Math.min(Number(process.hrtime.bigint() - start) / 1e6, (used.user + used.system) / 1e3);
      const proved = model.getModelStatus() === lib.constants.modelStatus.optimal;
      return { ms, goal: proved ? model.getObjectiveValue() : NaN };
    } finally {
      model.dispose();
    }
  });
}

function size(text) {
  const names = text.slice(text.indexOf("General\n"), text.lastIndexOf("End"));
  return [text.match(/^ r\d+:/gm).length, names.match(/^ \S+$/gm).length];
}

// job solves the programs of a job one after another.
function job(lib, name, wanted) {
  const row = { cbc: 0, highs: 0, agreed: { cbc: true, highs: true } };
  for (const goal of ["short", "drawn"]) {
    const file = path.join(dir, `${name}-${goal}.lp`);
    if (!fs.existsSync(file)) continue;
    const text = fs.readFileSync(file, "utf8");
    row.size = size(text);
    for (const [who, got] of [["cbc", cbc(file)], ["highs", highs(lib, text)]]) {
      row[who] += got.ms;
      if (!(Math.abs(got.goal - wanted[goal]) <= 1e-3)) {
        row.agreed[who] = false;
        console.log(`${name}: ${goal}: ${who} ${got.goal}, ours ${wanted[goal]}`);
      }
    }
  }
  return row;
}

function median(values) {
  const v = [...values].sort((a, b) => a - b);
  const half = Math.floor(v.length / 2);
  return v.length % 2 ? v[half] : (v[half - 1] + v[half]) / 2;
}

const line = (cells) => console.log(cells.map((c, i) => (i ? String(c).padStart(11) : String(c).padEnd(7))).join(""));

async function main() {
  const lib = await require("highs")();
  const text = fs.readFileSync(path.join(dir, "ours.tsv"), "utf8");
  const rows = [];
  line(["program", "strips", "pieces", "rows", "columns", "ours ms", "cbc ms", "HiGHS ms", "cbc/ours", "HiGHS/ours", "agreed"]);
  for (const f of text.trim().split("\n").map((l) => l.split("\t"))) {
    const [name, strips, pieces, status, ms, short, drawn] = f;
    const row = job(lib, name, { short: Number(short), drawn: Number(drawn) });
    row.ours = Number(ms);
    row.agree = row.agreed.cbc && row.agreed.highs && status === "optimal";
    rows.push(row);
    line([name, strips, pieces, ...row.size, row.ours.toFixed(2), row.cbc.toFixed(1), row.highs.toFixed(1),
      (row.cbc / row.ours).toFixed(1), (row.highs / row.ours).toFixed(1), row.agree ? "yes" : "no"]);
  }
  const of = (f) => median(rows.map(f));
  line(["median", "", "", "", "", of((r) => r.ours).toFixed(2), of((r) => r.cbc).toFixed(1), of((r) => r.highs).toFixed(1),
    of((r) => r.cbc / r.ours).toFixed(1), of((r) => r.highs / r.ours).toFixed(1), rows.every((r) => r.agree) ? "yes" : "no"]);
  const ratios = rows.map((r) => Math.min(r.cbc, r.highs) / r.ours);
  console.log(`The better of the two took ${median(ratios).toFixed(1)} times as long as ours in the median, ` +
    `${Math.min(...ratios).toFixed(1)} times at least; ours was slower on ${ratios.filter((r) => r < 1).length} of ${rows.length}.`);
  if (!rows.every((r) => r.agree)) process.exitCode = 1;
}

main();
JS
node "$work/compare.js"
