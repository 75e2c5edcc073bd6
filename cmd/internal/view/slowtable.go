package view

import (
	"math"
	"strconv"

	"lowsone/match/drive"
)

// table holds one line for each plan.
func (d *Slow) table() *Table {
	tach := 3
	if d.Alarm.Known() { // the device alarms by it
		tach = 0
	}
	t := &Table{Whole: "json", Columns: []Column{
		{Title: "means"},
		{Title: "part"},
		{Title: "at fan", Unit: "V", Spare: 1},
		{Title: "speed", Unit: "%"},
		{Title: "heat", Unit: "W", Number: true},
		{Title: "starts"},
		{Title: "tach", Unit: "Hz", Optional: true, Spare: tach},
		{Title: "flow", Unit: "m³/h", Optional: true, Spare: 2},
		{Title: "change", Unit: "dB", Optional: true},
		{Title: "level", Unit: "dB(A)", Optional: true},
		{Title: "hottest", Unit: "°C", Optional: true},
		{Title: "marks", Optional: true},
	}}
	for _, m := range d.Means {
		for i, plan := range m.Plans {
			t.Add(d.row(&m, i, plan)...)
		}
	}
	return t
}

func (d *Slow) row(m *SlowMeans, i int, plan drive.Plan) []string {
	e := &m.Effects[i]
	row := []string{
		shortMeans[plan.Means], partOf(plan), span(plan.Volts.Low, plan.Volts.High, 1), span(100*plan.Speed.Low, 100*plan.Speed.High, 0),
		Digits(plan.Heat, 2), startWords(plan), "", "", "", "", "", d.marks(m, i),
	}
	if e.Tach.High > 0 {
		row[6] = span(e.Tach.Low, e.Tach.High, 0)
		if e.AlarmAssumed {
			row[6] = EstimateMark + row[6]
		}
	}
	if d.Device == nil || !d.Device.HasLevels {
		row[8] = span(e.Low.Change, e.High.Change, 1)
	}
	if low, high := e.Low.At, e.High.At; low != nil && high != nil {
		row[7] = span(low.Q*perHour, high.Q*perHour, 1)
		if d.Device.HasLevels {
			row[9] = span(low.Level.DB, high.Level.DB, 1)
		}
		row[10] = hotCell(low.Spots)
	}
	return row
}

// shortMeans names the means in a table.
var shortMeans = map[drive.Means]string{
	drive.PWMInput: "PWM input", drive.Regulator: "linear", drive.LowDropRegulator: "low-drop",
	drive.BuckConverter: "buck", drive.SeriesDiodes: "diodes", drive.SeriesResistor: "resistor",
}

// partOf names what is to be had for a plan.
func partOf(plan drive.Plan) string {
	switch plan.Means {
	case drive.PWMInput:
		return "duty " + Fixed(100*plan.Duty, 0) + " %"
	case drive.SeriesResistor:
		return Trim(Digits(plan.Ohms, 2)) + " Ω, " + Trim(Digits(plan.Rating, 3)) + " W"
	case drive.SeriesDiodes:
		return strconv.Itoa(plan.Count) + " of " + Digits(plan.Rating, 2) + " A"
	}
	return "set to " + Trim(Digits(plan.Volts.Low, 3)) + " V"
}

// startWords tells whether the fan starts with a plan.
func startWords(plan drive.Plan) string {
	switch plan.Start {
	case drive.Passes:
		return "yes"
	case drive.Fails:
		return "no"
	case drive.Doubtful:
		return "doubtful"
	}
	return "?"
}

// span writes two ends of what is not known, once where they look alike; an end
// at which nothing was measured as a question mark.
func span(low, high float64, decimals int) string {
	a, b := Trim(Fixed(low, decimals)), Trim(Fixed(high, decimals))
	switch {
	case a == b:
		return a
	case math.IsNaN(low):
		a = "?"
	case math.IsNaN(high):
		b = "?"
	}
	if low < 0 || high < 0 {
		return a + " to " + b
	}
	return a + "–" + b
}
