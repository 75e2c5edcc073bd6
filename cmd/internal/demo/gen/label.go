package gen

import (
	"fmt"
	"math"
	"strings"
)

// spec is one fan with its label.
func (d *drawer) spec(f family, shared design, b build, round, index int, withCurve bool) Spec {
	m := &makers[f.maker]
	exact := f.fixed && round == 0
	flowScatter, pressureScatter, soundScatter := d.between(0.98, 1.02), d.between(0.97, 1.03), d.between(-0.4, 0.4)
	if exact {
		flowScatter, pressureScatter, soundScatter = 1, 1, 0
	}
	s := Spec{
		Part: m.part(f, b), Maker: m.name, Kind: f.kind, Supply: f.supply,
		WidthMM: known(f.width), HeightMM: known(f.height), DepthMM: known(f.depth),
		VoltageV: known(b.volts), Blades: known(f.blades), Bearing: m.bearingWord(f.bearing),
		Physics: shared.run(b.rpm, flowScatter, pressureScatter, soundScatter),
		maker:   m, bearing: f.bearing, alarm: b.leads == 'A',
	}
	s.Physics.Family = fmt.Sprintf("%s %s%s %s %gx%gx%g r%d", m.name, f.series, f.kind, f.supply, f.width, f.height, f.depth, round)
	if round > 0 {
		s.Part += fmt.Sprintf("-R%d", round+1)
	}
	d.air(&s, f, shared.shape, b, withCurve, exact)
	d.electric(&s, b)
	d.wiring(&s, f, b, exact)
	d.durable(&s, shared)
	d.trade(&s, f, shared, b, index, exact)
	d.gaps(&s, b, exact)
	d.hear(&s, f, shared.voice, b)
	s.Description = d.describe(&s)
	return s
}

// air puts flow, pressure, curve, speed and level on the label: what the fan does and what its maker promises on top, rounded.
func (d *drawer) air(s *Spec, f family, form shape, b build, withCurve, exact bool) {
	m, p := s.maker, s.Physics
	flow := d.flowLabel(p.FlowM3h * (1 + m.flow))
	pressure := d.pressureLabel(p.PressurePa * (1 + m.pressure))
	s.AirflowM3h, s.StaticPressurePa, s.SpeedRPM = known(flow), known(pressure), known(b.rpm)
	if withCurve {
		s.Curve = d.curve(form, flow, pressure, f.stale)
	}
	level := p.LevelDBA - m.hush
	s.NoiseKind, s.NoiseDistanceM = "pressure", m.distance
	if m.power {
		level, s.NoiseKind = level+11, "power" // free field, 10·log₁₀(4π·1 m²)
	} else if m.distance.Known {
		level -= 20 * math.Log10(m.distance.Value)
	}
	s.level = max(level, 11)
	s.NoiseDBA = known(d.to(s.level, m.levelStep))
	if f.pitch > 0 && (exact || d.share() < 0.75) {
		s.HolePitchMM = known(f.pitch)
	}
}

// flowLabel rounds a flow as labels do: to 0.1 below 30 m³/h, to 0.5 below 100, else whole.
func (d *drawer) flowLabel(m3h float64) float64 {
	switch {
	case m3h < 30:
		return d.to(m3h, 0.1)
	case m3h < 100:
		return d.to(m3h, 0.5)
	default:
		return d.to(m3h, 1)
	}
}

// pressureLabel rounds a pressure: to 0.1 below 20 Pa, else whole.
func (d *drawer) pressureLabel(pa float64) float64 {
	if pa < 20 {
		return d.to(pa, 0.1)
	}
	return d.to(pa, 1)
}

// curve is the family's shape between the two label ends. A stale curve belongs to an older version with 7 % less flow, so it does not
// end at the label's flow.
func (d *drawer) curve(form shape, flow, pressure float64, stale bool) []Point {
	end, step := flow, 0.1
	if stale {
		end = tidy(0.93*flow, 0.1)
	}
	if end < 12 {
		step = 0.01
	}
	points := make([]Point, knots)
	for i, share := range form {
		points[i] = Point{tidy(end*float64(i)/(knots-1), step), d.to(pressure*share, 0.1)}
	}
	points[0], points[knots-1] = Point{0, pressure}, Point{end, 0}
	return points
}

// electric puts current, power and the voltage range on the label. DC labels give the product of their volts and amperes as power.
func (d *drawer) electric(s *Spec, b build) {
	if s.Supply == supplyAC {
		watts := s.Physics.PowerW
		s.CurrentA = known(d.to(watts/b.volts/0.62, 0.001))
		s.PowerW = known(d.to(watts, 0.5))
		s.FrequencyHz = known(b.hertz)
		return
	}
	step := 0.01
	if s.Physics.PowerW/b.volts < 0.1 {
		step = 0.001
	}
	amps := max(d.to(1.05*s.Physics.PowerW/b.volts, step), step)
	s.CurrentA, s.PowerW = known(amps), known(tidy(amps*b.volts, 0.01))
	if d.share() < 0.6 {
		lo, hi := voltageRange(b.volts)
		s.VoltageMinV, s.VoltageMaxV = known(lo), known(hi)
	}
	if d.share() < 0.2 {
		lo, _ := voltageRange(b.volts)
		s.StartVoltageV = known(math.Floor(lo*2*0.9) / 2)
	}
}

// voltageRange is the usual range of a DC fan (common practice).
func voltageRange(volts float64) (lo, hi float64) {
	switch volts {
	case 5:
		return 4, 5.5
	case 12:
		return 7, 13.8
	case 24:
		return 14, 27.6
	default:
		return 28, 56
	}
}

// wiring puts leads, connector, tach and PWM on the label.
func (d *drawer) wiring(s *Spec, f family, b build, exact bool) {
	s.Leads, s.PWM = known(2), "no"
	switch b.leads {
	case '3':
		s.Leads, s.TachPerRev = known(3), known(2)
	case 'A':
		s.Leads = known(3)
	case '4':
		s.Leads, s.TachPerRev, s.PWM = known(4), known(2), "yes"
	}
	if b.leads != '4' && d.share() < 0.4 {
		s.PWM = ""
	}
	if exact || d.share() < 0.7 {
		s.Connector = d.connector(s, f)
	}
}

// connector is a connector family in general words (reference fit_connectors, testdata/sources/fit_connectors.csv).
func (d *drawer) connector(s *Spec, f family) string {
	switch {
	case s.Supply == supplyAC && f.depth >= 50:
		return "screw terminals"
	case s.Supply == supplyAC:
		return d.pick("blade terminals 2.8 x 0.5 mm", "blade terminals 2.8 x 0.5 mm", "bare leads")
	case s.VoltageV.Value == 5 && s.Leads.Value == 2:
		return d.pick("USB-A plug", "1.25 mm wire-to-board", "bare leads")
	case s.Leads.Value == 4:
		return "friction-lock header, 2.54 mm, keyed as 3-way"
	case f.fixed && s.Leads.Value == 3:
		return "friction-lock header, 2.54 mm"
	case f.width <= 30:
		return d.pick("1.25 mm wire-to-board", "ZH style", "bare leads")
	default:
		return d.pick("bare leads", "bare leads", "friction-lock header, 2.54 mm", "XH style", "PH style")
	}
}

// durable puts life and temperatures on the label.
func (d *drawer) durable(s *Spec, shared design) {
	hours := shared.life(s.maker.lifeTemp)
	s.LifeH, s.LifeTempC = known(d.to(hours, 5000)), known(s.maker.lifeTemp)
	if hours < 40000 {
		s.LifeH = known(max(d.to(hours, 1000), 1000))
	}
	s.TempMaxC = known(map[byte]float64{'b': 70, 'f': 65, 's': 60}[s.bearing])
	if s.maker.lifeTemp == 60 || s.Supply == supplyAC {
		s.TempMaxC.Value += 5
	}
}

// trade puts price, stock and order code into the record.
func (d *drawer) trade(s *Spec, f family, shared design, b build, index int, exact bool) {
	size := math.Pow(f.width*f.height/3600, 0.55) * math.Pow(f.depth/25, 0.35)
	price := s.maker.price * size * 4.6 * shared.price * d.between(0.98, 1.02)
	for _, extra := range []struct {
		when  bool
		times float64
	}{
		{s.bearing != 's', 1.2}, {s.Supply == supplyAC, 1.45}, {f.kind == kindRadial, 1.6}, {f.kind == kindMixed, 2.1},
		{f.kind == kindCross, 1.8}, {b.leads == '3' || b.leads == 'A', 1.06}, {b.leads == '4', 1.18}, {b.volts == 48, 1.15},
	} {
		if extra.when {
			price *= extra.times
		}
	}
	s.Price, s.Currency, s.Supplier = known(d.to(price, 0.05)), s.maker.currency, s.maker.supplier
	s.OrderCode = fmt.Sprintf("%d-%03d", 21+index/1000, index%1000)
	s.Stock = known(max(d.to(math.Pow(d.share(), 2.2)*900/size, 1)-20, 0))
	if exact && b.leads != '2' {
		s.Stock.Value += 12
	}
}

// gaps blanks what this label lacks.
func (d *drawer) gaps(s *Spec, b build, exact bool) {
	m := s.maker
	lacks := func(share float64) bool { return d.share() < share && !exact }
	noPressure, noLevel, noFlow := lacks(m.noPressure), lacks(m.noLevel), lacks(m.noFlow)
	if noPressure || strings.Contains(b.lacks, "p") {
		s.StaticPressurePa, s.Curve = Number{}, nil
	}
	if noLevel || strings.Contains(b.lacks, "n") {
		s.NoiseDBA, s.NoiseKind, s.NoiseDistanceM = Number{}, "", Number{}
	}
	if lacks(m.noSpeed) {
		s.SpeedRPM = Number{}
	}
	if noFlow || strings.Contains(b.lacks, "a") {
		s.AirflowM3h, s.Curve = Number{}, nil
	}
	if lacks(m.noPrice) {
		s.Price, s.Currency = Number{}, ""
	}
	if lacks(0.12) {
		s.Stock = Number{}
	}
	if lacks(0.25) {
		s.Blades = Number{}
	}
	if lacks(0.12) {
		s.LifeH, s.LifeTempC = Number{}, Number{}
	}
	if lacks(0.15) {
		s.TempMaxC = Number{}
	}
}

// describe is the line of text a distributor adds. Some run over two lines.
func (d *drawer) describe(s *Spec) string {
	word := s.maker.kindWord(s.Kind)
	size := fmt.Sprintf("%gx%gx%g", s.WidthMM.Value, s.HeightMM.Value, s.DepthMM.Value)
	volts := fmt.Sprintf("%g V %s", s.VoltageV.Value, strings.ToUpper(s.Supply))
	tail := map[float64]string{2: "", 3: "Tachosignal", 4: "PWM-Eingang, Tacho"}[s.Leads.Value]
	if s.alarm {
		tail = "Blockieralarm / locked rotor alarm"
	}
	if s.FrequencyHz.Known {
		tail = fmt.Sprintf("Werte bei %g Hz", s.FrequencyHz.Value)
	}
	separator := ", "
	switch share := d.share(); {
	case share < 0.06:
		separator = ";\n"
	case share < 0.14:
		separator = "; "
	case share < 0.3:
		return strings.Join([]string{word, size, volts}, " ")
	case share < 0.38:
		return ""
	}
	parts := []string{word + " " + size, volts, s.Bearing}
	if tail != "" {
		parts = append(parts, tail)
	}
	return strings.Join(parts, separator)
}
