package acoustics

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"lowsone/catalog/quantity"
	"lowsone/testdata/sources"
)

// A record is one row of a source file, by column.
type record map[string]string

// records reads a file of testdata/sources.
func records(t testing.TB, name string) []record {
	t.Helper()
	return sources.Records[record](t, name)
}

// recordOf gives the record with that id.
func recordOf(t *testing.T, list []record, id string) record {
	t.Helper()
	i := slices.IndexFunc(list, func(r record) bool { return r["id"] == id })
	if i < 0 {
		t.Fatalf("no row %s", id)
	}
	return list[i]
}

var leadingNumber = regexp.MustCompile(`^-?[0-9.]+(e-?[0-9]+)?`)

// number reads the number that text begins with.
func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(leadingNumber.FindString(strings.TrimSpace(text)), 64)
	if err != nil {
		t.Fatalf("no number in %q", text)
	}
	return v
}

// A published is one value computed for a row of a source file.
type published struct {
	id   string
	call string
	got  float64
	item int     // which of the row's values, parted by semicolons
	tol  float64 // instead of the row's own tolerance, where that is above 0
}

// compare holds values against the rows of a file: the value expected, to the
// tolerance that stands there.
func compare(t *testing.T, file string, rows []published) {
	t.Helper()
	source := records(t, file)
	for _, r := range rows {
		row := recordOf(t, source, r.id)
		want, tol := number(t, strings.Split(row["expected"], ";")[r.item]), r.tol
		if tol == 0 {
			tol = number(t, row["tolerance"])
		}
		check(t, r.call, r.got, want, tol, r.id+", "+row["status"]+", "+row["source"])
	}
}

func check(t *testing.T, call string, got, want, tol float64, source string) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %v, want %v ± %v (%s)", call, got, want, tol, source)
	}
}

// level and levels shorten the rows below.
func level(db float64) quantity.SoundPressureLevel { return quantity.PressureLevel(db) }

func sumOf(db ...float64) float64 {
	var ls []quantity.SoundPressureLevel
	for _, v := range db {
		ls = append(ls, level(v))
	}
	return Sum(ls...).DB()
}

func subtracted(t *testing.T, total, background float64, want Background) float64 {
	t.Helper()
	l, how, err := Subtract(level(total), level(background))
	if err != nil || how != want {
		t.Errorf("Subtract(%v, %v): %v, %v, want %v", total, background, how, err, want)
	}
	return l.DB()
}

func TestAddingLevels(t *testing.T) {
	compare(t, "sound_levels.csv", []published{
		{id: "L01", call: "Sum(10, 10)", got: sumOf(10, 10)},
		{id: "L02", call: "Sum(86, 86)", got: sumOf(86, 86)},
		{id: "L07", call: "Sum(90, 90, 88, …)", got: sumOf(90, 90, 88, 84, 79, 73, 69, 64)},
		{id: "L08", call: "Identical(3)", got: float64(Identical(3))},
	})
	compare(t, "sound_fan_laws.csv", []published{
		{id: "F28", call: "Identical(2)", got: float64(Identical(2)), item: 0},
		{id: "F28", call: "Identical(3)", got: float64(Identical(3)), item: 1},
		{id: "F28", call: "Identical(4)", got: float64(Identical(4)), item: 2},
	})
}

// The engineering and survey methods share the formula of K1 and differ in its
// limits; Subtract takes those of the survey.
func TestSubtractingBackground(t *testing.T) {
	compare(t, "sound_levels.csv", []published{
		{id: "L09", call: "Subtract(13.0103, 10)", got: subtracted(t, 13.0103, 10, Corrected)},
		{id: "L10", call: "K1(6)", got: float64(correction(6))},
		{id: "L10", call: "total − Subtract(50, 44)", got: 50 - subtracted(t, 50, 44, Corrected)},
		{id: "L11", call: "K1(15)", got: float64(correction(15))},
		{id: "L14", call: "total − Subtract(50, 40)", got: 50 - subtracted(t, 50, 40, Corrected)},
		{id: "L15", call: "total − Subtract(50, 39.9)", got: 50 - subtracted(t, 50, 39.9, None), tol: 1e-12},
		{id: "L17", call: "K1(9)", got: float64(correction(9))},
	})
}

// Sound power by the survey method is the level less background and room, plus
// 10·lg of the measuring surface; the room correction K2 = 10·lg(1 + 4·S/A) is
// the test's own, its A the mean absorption times the room's surface.
func TestBackgroundWithinSurveyPower(t *testing.T) {
	k2 := func(s, a float64) float64 { return decibel(1 + 4*s/a) }
	power := func(background float64, want Background) float64 {
		return subtracted(t, 90, background, want) - k2(10, 0.1*60) + decibel(10)
	}
	compare(t, "sound_levels.csv", []published{
		{id: "L19", call: "K2(50, 200)", got: k2(50, 200)},
		{id: "L21", call: "Lw(90, background 79)", got: power(79, None)},
		{id: "L22", call: "Lw(90, background 83)", got: power(83, Corrected)},
	})
}

func TestDistanceAndRoom(t *testing.T) {
	at := func(db, from, to float64) float64 {
		return AtDistance(level(db), quantity.Length(from), quantity.Length(to)).DB()
	}
	// Half of all directions, no diffuse sound: a hemisphere in free air.
	hemisphere := InRoom(quantity.PowerLevel(0), 2, 2.5, quantity.Area(math.Inf(1))).DB()
	compare(t, "sound_levels.csv", []published{
		{id: "L24", call: "88 − InRoom(0, 2, 2.5 m, Inf)", got: 88 - hemisphere},
		{id: "L26", call: "AtDistance(50, 1 m, 2 m)", got: at(50, 1, 2), item: 0},
		{id: "L26", call: "AtDistance(50, 1 m, 3 m)", got: at(50, 1, 3), item: 1},
		{id: "L26", call: "AtDistance(50, 1 m, 4 m)", got: at(50, 1, 4), item: 2},
		{id: "L27", call: "AtDistance(95, 15 m, 30 m)", got: at(95, 15, 30), item: 0},
		{id: "L27", call: "AtDistance(95, 15 m, 60 m)", got: at(95, 15, 60), item: 1},
		{id: "L29", call: "InRoom(50, 2, 1 m, 20 m²)", got: InRoom(quantity.PowerLevel(50), 2, 1, 20).DB()},
	})
}

func TestSpeedLaw(t *testing.T) {
	change := func(r float64) float64 {
		l, _ := AtSpeed(level(0), r)
		return l.DB()
	}
	compare(t, "sound_fan_laws.csv", []published{
		{id: "F01", call: "AtSpeed(0, 0.8)", got: change(0.8)},
		{id: "F03", call: "AtSpeed(0, 0.5)", got: change(0.5)},
		{id: "F29", call: "Identical(2) + AtSpeed(0, 0.5)", got: float64(Identical(2)) + change(0.5)},
	})
}

// The published curve is in x = V/V_opt; q = 0.6·x. At x = 0.8 the allowance
// steps from the published value to 0; from there on it leaves the curve.
func TestOffBestCurve(t *testing.T) {
	at := func(x float64) float64 {
		middle, _, _ := OffBest(Axial, bestShare*x)
		return float64(middle)
	}
	compare(t, "sound_fan_laws.csv", []published{
		{id: "F14", call: "OffBest(Axial, 0.6·0.5)", got: at(0.5), item: 0},
		{id: "F14", call: "OffBest(Axial, 0.6·0.6)", got: at(0.6), item: 1},
		{id: "F14", call: "OffBest(Axial, just under 0.6·0.8)", got: at(0.8 - 1e-9), item: 2},
	})
	if got := at(0.8); got != 0 {
		t.Errorf("OffBest(Axial, 0.48) = %v, want 0", got)
	}
}

func TestTones(t *testing.T) {
	const rpm = quantity.RevolutionPerMinute
	compare(t, "sound_tones.csv", []published{
		{id: "T01", call: "BladeTone(5, 1200 rpm)", got: float64(BladeTone(5, 1200*rpm))},
		{id: "T02", call: "BladeTone(7, 7000 rpm)", got: float64(BladeTone(7, 7000*rpm))},
		{id: "T15", call: "Beat(7 blades, 1500 and 1512 rpm)", got: float64(Beat(BladeTone(7, 1500*rpm), BladeTone(7, 1512*rpm)))},
		{id: "T17", call: "Identical(2), the mean of a beat", got: float64(Identical(2)), item: 1},
	})
}
