package view

import (
	"lowsone/match"
	"lowsone/match/drive"
)

// The keys of slow.
type slowJSON struct {
	Schema
	Part   string              `json:"part"`
	Maker  string              `json:"maker,omitempty"`
	Load   slowLoadJSON        `json:"fan"`
	Supply slowSupplyJSON      `json:"supply"`
	Target slowTargetJSON      `json:"target"`
	Device *slowDeviceJSON     `json:"device,omitempty"`
	Lowest Number              `json:"lowest_tach_hz,omitzero"` // that the device accepts
	Alarm  Number              `json:"alarm_below_rpm,omitzero"`
	Means  List[slowMeansJSON] `json:"means"`
	Never  List[string]        `json:"never"`
	Notes  List[string]        `json:"notes"`
	Text   string              `json:"caution"`
}

type slowLoadJSON struct {
	Voltage Number `json:"voltage_v,omitzero"`
	Current Number `json:"current_a,omitzero"`
	Start   Number `json:"start_voltage_v,omitzero"`
	Speed   Number `json:"speed_rpm,omitzero"`
	Pulses  Number `json:"tach_per_rev,omitzero"`
	PWM     bool   `json:"pwm"`
	Own     bool   `json:"regulates_itself"`
}

type slowSupplyJSON struct {
	Low    Number `json:"low_v,omitzero"`
	High   Number `json:"high_v,omitzero"`
	Pulsed bool   `json:"pulsed"`
}

type slowTargetJSON struct {
	Asked string `json:"asked"` // voltage, speed, flow, need
	Volts Number `json:"voltage_v,omitzero"`
	Share Number `json:"speed_ratio,omitzero"`
	Flow  Number `json:"flow_m3h,omitzero"`
}

type slowDeviceJSON struct {
	Full     *slowPointJSON `json:"full,omitempty"`
	Need     Number         `json:"need_flow_m3h,omitzero"`
	NeedFrom string         `json:"need_from"`
	Listener Number         `json:"level_distance_m"`
	Assumed  List[string]   `json:"assumed"`
}

type slowPointJSON struct {
	pointJSON
	Stalled bool       `json:"stalled"`
	Spots   []spotJSON `json:"temperatures,omitempty"`
	FanAir  Number     `json:"fan_air_c,omitzero"`
}

type slowMeansJSON struct {
	Means    string             `json:"means"`
	Refused  string             `json:"refused,omitempty"`
	Ohmic    Number             `json:"ohmic_ohm,omitzero"`
	Constant Number             `json:"constant_current_ohm,omitzero"`
	Plans    List[slowPlanJSON] `json:"plans"`
}

type slowPlanJSON struct {
	Nearest    bool   `json:"nearest,omitempty"`
	VoltsLow   Number `json:"fan_low_v"`
	VoltsHigh  Number `json:"fan_high_v"`
	SpeedLow   Number `json:"speed_low_ratio,omitzero"`
	SpeedHigh  Number `json:"speed_high_ratio,omitzero"`
	Heat       Number `json:"heat_w,omitzero"`
	HeatSink   bool   `json:"heat_sink"`
	Ohms       Number `json:"resistance_ohm,omitzero"`
	Rating     Number `json:"rating_w,omitzero"`
	Diodes     int    `json:"diodes,omitempty"`
	DiodeAmps  Number `json:"diode_rating_a,omitzero"`
	Duty       Number `json:"duty_ratio,omitzero"`
	StartVolts Number `json:"while_starting_v"`
	Starts     string `json:"starts"`

	TachLow    Number         `json:"tach_low_hz,omitzero"`
	TachHigh   Number         `json:"tach_high_hz,omitzero"`
	Alarm      string         `json:"alarm_check"`
	Assumed    bool           `json:"alarm_pulses_assumed,omitempty"` // tach and check are those at the usual 2 a turn
	ChangeLow  Number         `json:"level_change_low_db,omitzero"`
	ChangeHigh Number         `json:"level_change_high_db,omitzero"`
	Slowest    *slowPointJSON `json:"slowest,omitempty"`
	Fastest    *slowPointJSON `json:"fastest,omitempty"`
}

// JSON gives the object of the slow command.
func (d *Slow) JSON() any {
	j := slowJSON{
		Part: d.Fan.Part, Maker: d.Fan.Maker,
		Load: slowLoadJSON{
			aboveZero(d.Load.NominalVoltage), aboveZero(d.Load.RatedCurrent), aboveZero(d.Load.StartVoltage),
			aboveZero(d.Load.RatedSpeed * 60), Number(d.Load.PulsesPerTurn), d.Load.PWM, d.Load.SelfRegulated,
		},
		Supply: slowSupplyJSON{aboveZero(d.Rail.Low), aboveZero(d.Rail.High), d.Rail.Pulsed},
		Target: slowTargetJSON{SlowAsks[d.Target.Ask], Number(d.Target.Volts), Number(d.Target.Share), Number(d.Target.Flow * perHour)},
		Lowest: aboveZero(d.Alarm.Lowest()), Alarm: aboveZero(d.Alarm.Turns * 60), Notes: d.Notes, Text: Caution,
	}
	if v := d.Device; v != nil {
		j.Device = &slowDeviceJSON{slowPoint(v.Full), Number(v.Need * perHour), v.NeedFrom, Number(v.Listener), v.Assumed}
	}
	j.Means = d.meansJSON()
	for _, r := range d.Never {
		j.Never = append(j.Never, r.Text)
	}
	return j
}

// meansJSON gives the means alone.
func (d *Slow) meansJSON() List[slowMeansJSON] {
	out := List[slowMeansJSON]{}
	for i := range d.Means {
		out = append(out, slowMeansOf(&d.Means[i]))
	}
	return out
}

// aboveZero gives a number that is unknown where it is not above zero.
func aboveZero(v float64) Number {
	if v > 0 {
		return Number(v)
	}
	return unknownPoint().Flow
}

func slowPoint(a *match.AtSpeed) *slowPointJSON {
	if a == nil {
		return nil
	}
	return &slowPointJSON{pointOf(a.Point), a.Stalled, spotsJSON(a.Spots), Number(a.FanAir)}
}

func slowMeansOf(m *SlowMeans) slowMeansJSON {
	j := slowMeansJSON{Means: m.Offer.Means.String(), Ohmic: aboveZero(m.Ohmic), Constant: aboveZero(m.Constant)}
	if m.Refused != nil {
		j.Refused = refusalWords(m.Refused)
	}
	for i, plan := range m.Plans {
		j.Plans = append(j.Plans, slowPlan(m, i, plan))
	}
	return j
}

func slowPlan(m *SlowMeans, i int, p drive.Plan) slowPlanJSON {
	e := &m.Effects[i]
	j := slowPlanJSON{
		Nearest:  len(m.Plans) > 1 && i == m.Nearest,
		VoltsLow: Number(p.Volts.Low), VoltsHigh: Number(p.Volts.High), SpeedLow: Number(p.Speed.Low), SpeedHigh: Number(p.Speed.High),
		Heat: Number(p.Heat), HeatSink: p.HeatSink, Ohms: aboveZero(p.Ohms), Diodes: p.Count, Duty: aboveZero(p.Duty),
		StartVolts: Number(p.StartVolts), Starts: p.Start.String(),
		TachLow: aboveZero(e.Tach.Low), TachHigh: aboveZero(e.Tach.High), Alarm: e.Alarm.String(), Assumed: e.AlarmAssumed,
		ChangeLow: Number(e.Low.Change), ChangeHigh: Number(e.High.Change),
		Slowest: slowPoint(e.Low.At), Fastest: slowPoint(e.High.At),
		Rating: aboveZero(0), DiodeAmps: aboveZero(0),
	}
	switch p.Means {
	case drive.SeriesResistor:
		j.Rating = Number(p.Rating)
	case drive.SeriesDiodes:
		j.DiodeAmps = Number(p.Rating)
	}
	return j
}
