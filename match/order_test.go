package match

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

func anyMark() *rapid.Generator[mark] {
	return rapid.Custom(func(t *rapid.T) mark {
		return mark{
			row: int32(rapid.IntRange(0, 1000).Draw(t, "row")), score: int16(rapid.IntRange(20, 23).Draw(t, "score")),
			doubts: int16(rapid.IntRange(0, 1).Draw(t, "doubts")), margin: float64(rapid.IntRange(0, 3).Draw(t, "margin")),
			flow: float64(rapid.IntRange(1, 5).Draw(t, "flow")), level: float64(rapid.IntRange(20, 24).Draw(t, "level")),
		}
	})
}

// Leading keeps the marks that a full sort puts first, with all that stand where
// the last of them does, however they come.
func TestLeading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := rapid.SliceOfN(anyMark(), 0, 80).Draw(t, "all")
		n := rapid.IntRange(0, 30).Draw(t, "n")
		order := func(a, b mark) int { return compareMarks(&a, &b) }
		sorted := slices.Clone(all)
		slices.SortStableFunc(sorted, order)
		want := sorted[:min(n, len(sorted))]
		for len(want) > 0 && len(want) < len(sorted) && order(sorted[len(want)], want[len(want)-1]) == 0 {
			want = sorted[:len(want)+1]
		}
		parts := make([]leading, 3)
		for i := range parts {
			parts[i] = leading{n: n}
		}
		for _, m := range all {
			part := &parts[rapid.IntRange(0, 2).Draw(t, "part")]
			if part.add(&m); part != &parts[0] && len(part.kept) > 5 { // joined and begun anew
				parts[0].join(part)
				*part = leading{n: n}
				part.bound(&parts[0])
			}
		}
		parts[0].join(&parts[1])
		parts[0].join(&parts[2])
		got := slices.Clone(parts[0].marks())
		slices.SortStableFunc(got, order)
		if !slices.EqualFunc(got, want, func(a, b mark) bool { return order(a, b) == 0 }) {
			t.Fatalf("the first %d of %v are %v, want %v", n, all, got, want)
		}
	})
}

// A mark is on the front unless another is quieter and moves as much, or is as
// quiet and moves more.
func TestFront(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := rapid.SliceOfN(anyMark(), 1, 40).Draw(t, "all")
		var parts [2]front
		for _, m := range all {
			parts[rapid.IntRange(0, 1).Draw(t, "part")].add(frontPoint{m.level, m.flow})
		}
		parts[0].join(parts[1])
		for _, m := range all {
			beaten := slices.ContainsFunc(all, func(n mark) bool {
				return n.level < m.level && n.flow >= m.flow || n.level == m.level && n.flow > m.flow
			})
			if got := parts[0].holds(&m); got == beaten {
				t.Fatalf("%+v of %v on the front %v: %v, want %v", m, all, parts[0], got, !beaten)
			}
		}
	})
}

// What is shown of a ranking is the beginning of all of it, and the fitted fan has
// its own place, however many fans stand alike.
func TestFewAreTheFirstOfAll(t *testing.T) {
	var fans []*catalog.Fan
	for i := range 40 {
		fans = append(fans, fanOf(t, fmt.Sprintf("part=P%02d maker=M%d"+frame60+"airflow_m3h=%d static_pressure_pa=90 noise_dba=%d speed_rpm=4600 price=%d currency=EUR",
			(7*i)%40, i%3, 50+i%4, 36+i%3, 3+i%2)))
	}
	req := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(20))
	req.Need.Share = 0.6
	all := rankOf(t, req, fans...)
	if len(all.Candidates) != all.Total || all.Total < 30 {
		t.Fatalf("%d of %d candidates", len(all.Candidates), all.Total)
	}
	same := cmp.Options{cmpopts.EquateNaNs(), cmp.AllowUnexported(quantity.Known[int]{})}
	for top := 1; top < all.Total; top++ {
		req.Top = top
		few := rankOf(t, req, fans...)
		got := few.Candidates
		if few.Fitted != nil {
			got = append(slices.Clone(got), *few.Fitted)
		}
		want := slices.Clone(all.Candidates[:top])
		if i := slices.IndexFunc(all.Candidates, func(c Candidate) bool { return c.Fitted }); i >= top {
			last := all.Candidates[i]
			last.Tie = false // it is told of the first ones alone
			want = append(want, last)
		}
		if diff := cmp.Diff(want, got, same...); diff != "" {
			t.Fatalf("the first %d are not those of all:\n%s", top, diff)
		}
	}
}

// Checks that no fan can fail on a seat are left out of the search for the first
// that one fails; it finds what asking all of them does.
func TestFirstFailAsksWhatCanFail(t *testing.T) {
	either := func(t *rapid.T, name string, values ...string) string {
		if v := rapid.SampledFrom(append(values, "")).Draw(t, name); v != "" {
			return name + "=" + v + " "
		}
		return ""
	}
	failed := map[CheckName]int{}
	rapid.Check(t, func(rt *rapid.T) {
		var pairs strings.Builder
		for _, f := range []struct {
			name   string
			values []string
		}{
			{"kind", []string{"axial", "centrifugal"}}, {"width_mm", []string{"60", "80"}}, {"height_mm", []string{"60", "80"}},
			{"depth_mm", []string{"15", "25", "38"}}, {"hole_pitch_mm", []string{"50", "71.5"}}, {"supply", []string{"ac", "dc"}},
			{"voltage_v", []string{"12", "24"}}, {"voltage_min_v", []string{"7"}}, {"voltage_max_v", []string{"13"}}, {"frequency_hz", []string{"50", "400"}},
			{"current_a", []string{"0.1", "0.9"}}, {"power_w", []string{"2", "20"}}, {"leads", []string{"2", "3", "4"}}, {"tach_per_rev", []string{"0", "2"}},
			{"speed_rpm", []string{"1500", "4500"}}, {"pwm", []string{"yes", "no"}}, {"temp_max_c", []string{"30", "70"}}, {"connector", []string{"JX"}},
		} {
			pairs.WriteString(either(rt, f.name, f.values...))
		}
		var s Seat
		some := func(name string) bool { return rapid.Bool().Draw(rt, name) }
		length := func(name string, mm float64) (l quantity.Known[quantity.Length]) {
			if some(name) {
				l = quantity.Stated(quantity.Length(mm / 1000))
			}
			return l
		}
		s.Width, s.Height, s.HolePitch, s.DepthMax = length("width", 60), length("height", 60), length("pitch", 50), length("depth", 25)
		s.SpaceWidth = length("space", 70)
		if some("kind of seat") {
			s.Kind, s.AnyKind = quantity.Stated(catalog.Axial), some("any kind")
		}
		if some("supply of seat") {
			s.Supply, s.Mains = quantity.Stated(rapid.SampledFrom([]catalog.Supply{catalog.AC, catalog.DC}).Draw(rt, "which")), quantity.Stated(50*quantity.Hertz)
		}
		if some("voltage of seat") {
			s.Voltage = quantity.Stated(quantity.Voltage(12))
		}
		if some("current of seat") {
			s.CurrentMax = quantity.Stated(quantity.Current(0.5))
		}
		if some("air") {
			s.AirTemp = quantity.Stated(quantity.Celsius(40))
		}
		s.Watches = rapid.SampledFrom([]Watch{WatchUnknown, Unwatched, WatchTach, WatchAlarm}).Draw(rt, "watches")
		if some("alarm") {
			s.AlarmSpeed = quantity.Stated(quantity.Speed(40))
		}
		s.SlowBy = rapid.SampledFrom([]SlowBy{SlowAny, SlowNone, SlowVoltage, SlowPWM}).Draw(rt, "slow by")
		f := newFit(s, fanOf(t, "part=F"+frame60+"leads=3"), 1)
		cols := catalog.ColumnsOf(fanOf(t, "part=A "+pairs.String()))
		want := CheckName("")
		for _, c := range f.report(cols, 0) {
			if c.Verdict == catalog.Fail && want == "" {
				want = c.Name
			}
		}
		failed[want]++
		if got, ok := f.firstFail(cols, 0); got != want || ok != (want == "") {
			rt.Fatalf("firstFail = %q, want %q of %q on %+v", got, want, pairs.String(), s)
		}
		if narrowed, _ := f.firstFail(only(*cols, f.reads()), 0); narrowed != want {
			rt.Fatalf("firstFail with the columns it reads = %q, want %q", narrowed, want)
		}
	})
	for _, name := range []CheckName{CheckFrame, CheckDepth, CheckKind, CheckSupply, ""} {
		if failed[name] == 0 {
			t.Errorf("no fan failed %q", name)
		}
	}
}
