package trial

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// TimeForm is how times are written.
type TimeForm uint8

// The forms. FormFound is found in the file.
const (
	FormFound TimeForm = iota
	FormSeconds
	FormMinutes
	FormHours
	FormHoursMinutes   // 1:30 is an hour and a half
	FormMinutesSeconds // 1:30 is a minute and a half
)

// TimeForms lists the names of the forms, by TimeForm less one.
var TimeForms = []string{"s", "min", "h", "hh:mm", "mm:ss"}

// timeReader reads the column of times.
type timeReader struct {
	l    *logReader
	at   int
	mark tabular.Mark
	form TimeForm
}

const day = 24 * 3600

// read gives the times in s from any start.
func (r *timeReader) read() ([]float64, error) {
	cells := r.l.cells[r.at]
	r.form = r.l.opts.Unit
	if r.form == FormFound {
		if err := r.find(cells); err != nil {
			return nil, err
		}
	}
	dates := slices.ContainsFunc(cells, isDate)
	var out []float64
	for i, cell := range cells {
		var s float64
		var err error
		if dates {
			s, err = dateOf(cell)
		} else {
			s, err = r.seconds(cell)
		}
		if err != nil {
			return nil, r.l.errorf(r.l.lines[i], "every row needs a time such as 90, 1:30:00 or 2030-04-05 10:30:00", "time %q: %v", cell, err)
		}
		out = append(out, s)
	}
	if !dates && slices.ContainsFunc(cells, func(c string) bool { return strings.Contains(c, ":") }) {
		passMidnight(out)
	}
	return out, nil
}

// passMidnight lets a clock without a date run on. A step back by more than half
// a day is midnight.
func passMidnight(times []float64) {
	days := 0.0
	for i, t := range times {
		if i > 0 && t+days*day < times[i-1]-day/2 {
			days++
		}
		times[i] = t + days*day
	}
}

// find finds the form: from the cells where they tell, else from the header.
func (r *timeReader) find(cells []string) error {
	header := r.l.file.Header()[r.at]
	r.form = formOf(header)
	clocks, parts, most := 0, 0, 0.0
	for _, cell := range cells {
		if n := strings.Count(cell, ":"); n > 0 && !isDate(cell) {
			clocks++
			parts = max(parts, n)
			first, _, _ := strings.Cut(cell, ":")
			if v, err := tabular.ParseNumber(first, r.mark); err == nil {
				most = max(most, v)
			}
		}
	}
	clock := r.form == FormHoursMinutes || r.form == FormMinutesSeconds
	switch {
	case clocks == 0 && r.form == FormFound && !slices.ContainsFunc(cells, isDate) && !r.unitsInCells(cells):
		return r.l.errorf(0, "say it in the header, such as time_min, or --time-form s, --time-form min, --time-form h", "the unit of the times in %q is not stated", header)
	case clocks > 0 && parts == 1 && !clock && most > 23:
		r.form = FormMinutesSeconds
	case clocks > 0 && parts == 1 && !clock:
		return r.l.errorf(0, "say which: --time-form hh:mm or --time-form mm:ss", "times such as %q may be hours and minutes, or minutes and seconds", cells[0])
	}
	return nil
}

func (r *timeReader) unitsInCells(cells []string) bool {
	return !slices.ContainsFunc(cells, func(cell string) bool {
		_, unit := cutUnit(cell)
		_, ok := quantity.UnitOf(quantity.DimTime, unit)
		return !ok
	})
}

// formOf reads the form from a header: "time [min]", "t/s", "elapsed_h".
func formOf(header string) TimeForm {
	low := strings.ToLower(header)
	switch {
	case strings.Contains(low, "hh:mm:ss"):
		return FormFound
	case strings.Contains(low, "hh:mm"), strings.Contains(low, "h:min"), strings.Contains(low, "h:mm"):
		return FormHoursMinutes
	case strings.Contains(low, "mm:ss"), strings.Contains(low, "min:s"), strings.Contains(low, "m:ss"):
		return FormMinutesSeconds
	}
	found := FormFound
	for _, w := range words(low) {
		switch w {
		case "s", "sec", "secs", "seconds", "sek", "sekunden", "secondes", "segundos":
			found = FormSeconds
		case "min", "mins", "minutes", "minuten", "minutos", "mn":
			found = FormMinutes
		case "h", "hr", "hrs", "hours", "std", "stunden", "heures", "horas":
			found = FormHours
		}
	}
	return found
}

// seconds reads one cell.
func (r *timeReader) seconds(cell string) (float64, error) {
	if strings.Contains(cell, ":") {
		return r.clock(cell)
	}
	number, symbol := cutUnit(cell)
	v, err := tabular.ParseNumber(number, r.mark)
	if err != nil {
		return 0, err
	}
	if symbol != "" {
		u, ok := quantity.UnitOf(quantity.DimTime, symbol)
		if !ok {
			return 0, fmt.Errorf("unit %q is not one of %s", symbol, strings.Join(quantity.Symbols(quantity.DimTime), ", "))
		}
		return u.ToSI(v), nil
	}
	switch r.form {
	case FormMinutes:
		return v * 60, nil
	case FormHours:
		return v * 3600, nil
	case FormSeconds:
		return v, nil
	}
	return 0, fmt.Errorf("no unit")
}

// clock reads 1:30, 1:30:05 or 1:30:05.5, also with am or pm.
func (r *timeReader) clock(cell string) (float64, error) {
	half := 0.0
	low := strings.ToLower(cell)
	for _, noon := range []string{"pm", "p.m.", "am", "a.m."} {
		if rest, ok := strings.CutSuffix(low, noon); ok {
			low = strings.TrimSpace(rest)
			if noon[0] == 'p' {
				half = day / 2
			}
			if strings.HasPrefix(low, "12:") {
				half -= day / 2
			}
			break
		}
	}
	parts := strings.Split(low, ":")
	scale := 3600.0
	if len(parts) == 2 && r.form == FormMinutesSeconds {
		scale = 60
	}
	if len(parts) > 3 {
		return 0, fmt.Errorf("more than hours, minutes and seconds")
	}
	total := half
	for i, part := range parts {
		v, err := tabular.ParseNumber(part, r.mark)
		if err != nil || v < 0 || i > 0 && v >= 60 {
			return 0, fmt.Errorf("no time of a clock")
		}
		total += v * scale
		scale /= 60
	}
	return total, nil
}

// layouts are dates with a clock that cannot be read two ways.
var layouts = []string{
	"2006-01-02 15:04:05", "2006-01-02 15:04", "2006/01/02 15:04:05", "2006/01/02 15:04", "02.01.2006 15:04:05", "02.01.2006 15:04",
	"2006-01-02T15:04:05", "2006-01-02T15:04", time.RFC3339,
}

// isDate says whether a cell holds a date and a clock.
func isDate(cell string) bool {
	date, clock, ok := strings.Cut(strings.Replace(cell, "T", " ", 1), " ")
	return ok && strings.Contains(clock, ":") && strings.ContainsAny(date, "-./") && strings.ContainsAny(date, "0123456789")
}

// dateOf reads a date with a clock.
func dateOf(cell string) (float64, error) {
	for _, layout := range layouts {
		if t, err := time.Parse(layout, cell); err == nil { // seconds may have a fraction
			return float64(t.UnixNano()) / 1e9, nil
		}
	}
	return 0, fmt.Errorf("not a date and time that reads one way only: 2030-04-05 10:30:00, 05.04.2030 10:30:00")
}
