package bench

import (
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
)

const (
	database     = "fans.db"
	lacksSQLite3 = "sqlite3 is not installed"
)

// sqlite gives a function that runs a script in the sqlite3 shell, nil where
// there is none.
func (s *bed) sqlite(b *testing.B) func(script string) outcome {
	path, err := exec.LookPath("sqlite3")
	if err != nil {
		return nil
	}
	return func(script string) outcome { return s.run(b, []byte(script), path, "-bail", s.at(database)) }
}

// schema makes the table of fans with numbers as numbers; what follows the
// import indexes it as the catalogue is indexed.
const (
	schema = `create table fans(part text, maker text, kind text, width_mm real, height_mm real, depth_mm real, hole_pitch_mm real,
voltage_v real, voltage_min_v real, voltage_max_v real, supply text, current_a real, power_w real, leads real, connector text,
tach_per_rev real, pwm text, start_voltage_v real, frequency_hz real, airflow_m3h real, static_pressure_pa real, curve text,
speed_rpm real, noise_dba real, noise_kind text, noise_distance_m real, blades real, bearing text, life_h real, life_temp_c real,
temp_max_c real, price real, currency text, supplier text, order_code text, stock real, description text);
`
	indexes = `
create index by_name on fans(maker, part);
create index by_frame on fans(width_mm, height_mm, voltage_v);
create virtual table words using fts5(part, maker, description, content=fans);
insert into words(words) values('rebuild');
`
)

// sqliteImport gives the rival of import: it imports the fans into a new
// database, and fails unless all of them came in.
func (s *bed) sqliteImport(b *testing.B) (rival func() outcome, lacks string) {
	sqlite := s.sqlite(b)
	if sqlite == nil {
		return nil, lacksSQLite3
	}
	script := fmt.Sprintf("%s.mode csv\n.import --skip 1 '%s' fans\n%sselect count(*) from fans;", schema, s.csv, indexes)
	return func() outcome {
		if err := os.RemoveAll(s.at(database)); err != nil {
			b.Fatal(err)
		}
		o := sqlite(script)
		if got := strings.TrimSpace(o.out); got != strconv.Itoa(s.rows) {
			b.Fatalf("sqlite3 imported %s rows, want %d", got, s.rows)
		}
		return o
	}, ""
}

// shown is how many fans each side lists.
const shown = 20

// texts are what is searched for: a word that most rows have, and a part.
var texts = []struct {
	what, text string
	asked      bool // by the table
}{
	{"a common word", "axial", true},
	{"two words", "kugel tachosignal", false},
	{"a part number", "OMB-625B56B3", false},
}

// searches compares text search.
func (t *table) searches(s *bed) {
	for _, q := range texts {
		c := contest{job: "search " + s.String() + ": " + q.what, runs: 9}
		if q.asked {
			c.must, c.aim = bounds[s.rows].searchMust, bounds[s.rows].searchAim
		}
		c.own = func() outcome {
			o := s.lowsone(t.b, "catalogue", "--format", "csv", "search", "--limit", strconv.Itoa(shown), q.text)
			t.lists(o, 2, "lowsone search "+q.text)
			return o
		}
		if sqlite := s.sqlite(t.b); sqlite != nil {
			script := fmt.Sprintf("select fans.* from words join fans on fans.rowid = words.rowid where words match '%s' order by rank limit %d;", phrases(q.text), shown)
			c.rival = func() outcome {
				o := sqlite(script)
				t.lists(o, 1, script)
				return o
			}
		} else {
			c.lacks = lacksSQLite3
		}
		t.contest(c)
	}
}

// phrases puts each word in quotes, so that its signs are no syntax.
func phrases(text string) string {
	return `"` + strings.Join(strings.Fields(text), `" "`) + `"`
}

// lists fails unless a program printed at least so many lines.
func (t *table) lists(o outcome, lines int, what string) {
	if strings.Count(o.out, "\n") < lines {
		t.b.Fatalf("%s lists too little: %q", what, o.out)
	}
}
