package bench

import (
	"fmt"
	"os"
	"os/exec"
)

// The fan that is replaced: 40 m³/h, 60 Pa, 4500 rpm, 38 dB(A); it moves 20 m³/h
// in its device.
var fitted = []string{"--fitted", "airflow_m3h=40", "--fitted", "static_pressure_pa=60", "--fitted", "speed_rpm=4500", "--fitted", "noise_dba=38"}

// seat is where it sits, where that counts.
var seat = []string{
	"--fitted", "width_mm=60", "--fitted", "height_mm=60", "--fitted", "depth_mm=25", "--fitted", "kind=axial",
	"--fitted", "supply=dc", "--fitted", "voltage_v=12", "--fitted", "leads=3",
}

// rank gives the command that ranks the ten quietest by level, as the rivals do.
func rank(more ...string) []string {
	args := append([]string{"rank", "--nominal", "--format", "csv", "--top", "10", "--flow", "20m3/h"}, fitted...)
	return append(args, more...)
}

// ranks compares ranking: of all fans, whatever their size, and of those that
// fit.
func (t *table) ranks(s *bed) {
	runs := 7
	if s.rows >= 1_000_000 {
		runs = 3
	}
	c := contest{job: "rank all of " + s.String(), must: bounds[s.rows].rankMust, aim: bounds[s.rows].rankAim, runs: runs}
	c.own = func() outcome { return t.ranked(s, rank("--kind", "any")) }
	if sqlite := s.sqlite(t.b); sqlite != nil {
		c.rival = func() outcome {
			o := sqlite(rankSQL)
			t.lists(o, 10, "sqlite3")
			return o
		}
	} else {
		c.lacks = lacksSQLite3
	}
	own := t.contest(c)
	t.add("%-40s %9.0f MiB", "  peak memory", float64(own.peak)/mebibyte)
	t.fitting(s, runs)
}

// ranked runs lowsone rank.
func (t *table) ranked(s *bed, args []string) outcome {
	o := s.lowsone(t.b, "catalogue", args...)
	t.lists(o, 11, "lowsone rank")
	return o
}

// fitting compares the ranking of fans that fit with numpy, from the CSV as a
// script would have it, and from columns that were prepared beforehand.
func (t *table) fitting(s *bed, runs int) {
	python, lacks := numpy()
	for _, from := range []string{"csv", "columns"} {
		c := contest{job: "rank what fits of " + s.String() + ": numpy from " + from, runs: runs, lacks: lacks}
		if from == "csv" && s.rows == 100_000 {
			c.must, c.aim = 0.06, 0.03
		}
		c.own = func() outcome { return t.ranked(s, rank(seat...)) }
		if python != "" {
			source := s.csv
			if from == "columns" {
				source = s.at("fans.npz")
				s.run(t.b, nil, python, "testdata/rank.py", "prepare", s.csv, source)
			}
			c.rival = func() outcome {
				o := s.run(t.b, nil, python, "testdata/rank.py", from, source)
				t.lists(o, 10, "numpy")
				return o
			}
		}
		t.contest(c)
	}
}

// numpy gives a Python that finds numpy and pandas; PYTHON names another than
// python3.
func numpy() (python, lacks string) {
	python = os.Getenv("PYTHON")
	if python == "" {
		python = "python3"
	}
	if exec.Command(python, "-c", "import numpy, pandas").Run() != nil {
		return "", fmt.Sprintf("%s does not find numpy and pandas; PYTHON names another Python", python)
	}
	return python, ""
}

// rankSQL ranks all fans for the device Δp = a·Q + b·Q² (Pa, m³/h) that lets the
// fitted fan move 20 m³/h against 30 Pa. A fan's curve is the straight line from
// p0 at no flow to q0 at no pressure:
//
//	crossing: b·q² + (a + p0/q0)·q − p0 = 0
//	matched speed r, at which it moves what is needed: r²·p0 − r·p0·need/q0 − Δp(need) = 0
//	level: label at 1 m + 50·lg r
const rankSQL = `
with device(a, b, need) as (values (0.15, 0.0675, 20.0)),
fan as (
  select part, maker, price, airflow_m3h q0, static_pressure_pa p0,
    noise_dba + case when noise_kind = 'power' then -11.0 else 20 * log10(coalesce(noise_distance_m, 1.0)) end level
  from fans where airflow_m3h > 0 and static_pressure_pa > 0 and noise_dba > 0
),
crossed as (
  select *, 2 * p0 / ((a + p0 / q0) + sqrt((a + p0 / q0) * (a + p0 / q0) + 4 * b * p0)) q,
    (p0 * need / q0 + sqrt(p0 * need / q0 * p0 * need / q0 + 4 * p0 * (a * need + b * need * need))) / (2 * p0) r
  from fan, device
)
select part, maker, round(q, 2), round(r, 4), round(level + 50 * log10(r), 2)
from crossed where r <= 1
order by round(level + 50 * log10(r)), price, maker, part limit 10;
`
