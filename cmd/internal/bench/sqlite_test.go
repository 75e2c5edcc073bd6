package bench

import (
	"fmt"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// sqlite runs the sqlite3 shell on the database named, or says that it is not
// there.
func (s *bed) sqlite(b *testing.B, database, script string) (out string, ok bool) {
	b.Helper()
	path, err := exec.LookPath("sqlite3")
	if err != nil {
		b.Log("SKIPPED the comparison with sqlite3: it is not installed")
		return "", false
	}
	return s.run(b, []byte(script), path, "-bail", filepath.Join(s.dir, database)), true
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
create virtual table words using fts5(part, maker, description, content=fans);
insert into words(words) values('rebuild');
`
)

// sqliteImport imports the fans into the database named, and fails unless all of
// them came in.
func (s *bed) sqliteImport(b *testing.B, database string) bool {
	b.Helper()
	out, ok := s.sqlite(b, database, fmt.Sprintf("%s.mode csv\n.import --skip 1 '%s' fans\n%sselect count(*) from fans;", schema, s.csv, indexes))
	if count := strings.TrimSpace(out); ok && count != strconv.Itoa(s.rows) {
		b.Fatalf("sqlite3 imported %s rows, want %d", count, s.rows)
	}
	return ok
}

func BenchmarkImport(b *testing.B) {
	each(b, func(b *testing.B, s *bed) {
		run := 0
		for b.Loop() {
			run++
			s.importAll(b, fmt.Sprint("catalogue", run))
		}
		rival, base, ok := 0.0, 0, true
		if seconds := time3(func() { base++; ok = s.sqliteImport(b, fmt.Sprint("fans", base, ".db")) && ok }); ok {
			rival = seconds
		}
		s.report(b, rival)
	})
}

// searches holds questions for both: the command's flags, and SQL for the same.
var searches = []struct {
	name string
	args []string
	sql  string
}{
	{
		"values",
		[]string{"--frame", "60", "--voltage", "12", "--noise-max", "30", "--sort", "noise_dba"},
		`select * from fans where width_mm = 60 and height_mm = 60 and noise_dba <= 30 and (voltage_v = 12 or
voltage_min_v <= 12 and voltage_max_v >= 12) order by noise_dba, maker, part limit 20;`,
	},
	{
		"words",
		[]string{"axial"},
		`select fans.* from words join fans on fans.rowid = words.rowid where words match 'axial' order by rank limit 20;`,
	},
}

func BenchmarkSearch(b *testing.B) {
	for _, q := range searches {
		b.Run(q.name, func(b *testing.B) {
			each(b, func(b *testing.B, s *bed) {
				s.importAll(b, "catalogue")
				args := append([]string{"search", "--format", "csv", "--limit", "20"}, q.args...)
				for b.Loop() {
					if out := s.lowsone(b, "catalogue", args...); strings.Count(out, "\n") < 2 {
						b.Fatalf("lowsone %s found nothing: %q", strings.Join(args, " "), out)
					}
				}
				rival := 0.0
				if s.sqliteImport(b, "fans.db") {
					rival = time3(func() {
						if out, _ := s.sqlite(b, "fans.db", q.sql); out == "" {
							b.Fatalf("sqlite3 found nothing: %s", q.sql)
						}
					})
				}
				s.report(b, rival)
			})
		})
	}
}
