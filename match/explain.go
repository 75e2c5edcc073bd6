package match

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Explain walks row (NotInCatalogue: the described fitted fan) from its label
// to its place in the ranking of the same request. Every number is the
// ranking's own. Errors are those of Rank.
func Explain(ctx context.Context, fans catalog.Fans, req Request, row int) (*Explanation, error) {
	p, err := prepare(ctx, fans, req)
	if err != nil {
		return nil, err
	}
	w := &walk{p: p, row: row, fitted: row == req.Path.Row}
	if w.fitted {
		w.cols = catalog.ColumnsOf(req.Path.Fitted)
	} else {
		if w.ground, err = p.known.ground.at(ctx, row); err != nil {
			return nil, err
		}
		w.cols = w.ground.columns
	}
	if err := w.find(ctx); err != nil {
		return nil, err
	}
	w.device()
	return &Explanation{Row: row, Outcome: w.fan(), Steps: w.steps}, nil
}

// find looks for the place of the fan, if it can be a contender.
func (w *walk) find(ctx context.Context) error {
	r, why := w.rated()
	e := evaluation{rated: r}
	if why != "" {
		return nil
	}
	if o, _ := w.p.ask(&e, w.fitted); o != fine {
		return nil
	}
	m := w.p.mark(int(w.markRow()), &e)
	found, err := w.p.look(ctx, wanted{around: &m})
	if err != nil {
		return err
	}
	w.study = &Study{p: w.p, found: found}
	w.study.fine, err = w.p.contenders(ctx, found.marks())
	return err
}

// walk collects the steps of one explanation.
type walk struct {
	p      *problem
	study  *Study           // of the fans that stand where this one would; nil: it is no contender
	cols   *catalog.Columns // that hold the fan, as row 0
	ground *footing         // for them; nil for the fitted fan
	row    int
	fitted bool
	steps  []Step
}

// markRow gives the row that stands in the mark of the fan.
func (w *walk) markRow() int32 {
	if w.fitted {
		return fittedRow
	}
	return int32(w.row)
}

func (w *walk) add(s Step) { w.steps = append(w.steps, s) }

// device explains what all candidates share.
func (w *walk) device() {
	s, t := w.p.known.system, &w.p.task
	a, b := perHour(s.curve().A), perHour(perHour(s.curve().B))
	if s.Located {
		w.add(Step{About: TopicPresent, Title: "the fitted fan now", Formula: "method: " + s.Method.String(),
			Numbers: fmt.Sprintf("speed %s %% of its label, air of %s kg/m³", Plain(100*s.Ratio), Plain(s.Density)),
			Result:  fmt.Sprintf("%s at %s", flow(s.Q), pressure(s.P)), Source: "physics: resistance from one measurement", Estimate: w.p.req.Path.Way.Assumed})
	}
	w.add(Step{About: TopicResistance, Title: "the device's resistance", Formula: "Δp = a·Q + b·Q²",
		Numbers: fmt.Sprintf("a = %s Pa/(m³/h), b = %s Pa/(m³/h)²", Plain(a), Plain(b)),
		Result:  fmt.Sprintf("%s at the needed flow", pressure(t.system.Loss(t.need))), Source: "quadratic losses, laminar part only where measured"})
	w.watched()
	w.add(Step{About: TopicNeed, Title: "the needed flow", Formula: w.p.needFrom, Result: flow(t.need)})
	w.seated()
}

// fan explains one fan and gives its outcome.
func (w *walk) fan() string {
	w.label()
	if !w.fitted && w.p.excluded(w.cols, 0) {
		return "left out: excluded by name"
	}
	if !w.fitted {
		if out := w.checked(); out != "" {
			return out
		}
	}
	r, why := w.rated()
	if why != "" {
		return "left out: " + string(why)
	}
	w.footing(&r)
	return w.evaluated(r)
}

func (w *walk) label() {
	var parts []string
	for _, id := range [...]catalog.FieldID{catalog.FieldAirflow, catalog.FieldStaticPressure, catalog.FieldNoise, catalog.FieldSpeed, catalog.FieldVoltage} {
		d := &catalog.Fields[id]
		said := "not stated"
		if v := w.cols.Number(id, 0); !math.IsNaN(v) {
			said = Plain(d.InUnit(v)) + " " + d.Unit.Symbol
		}
		parts = append(parts, d.Title+" "+said)
	}
	if q, _ := w.cols.Curve(0); len(q) > 0 {
		parts = append(parts, fmt.Sprintf("a curve of %d points", len(q)))
	}
	w.add(Step{Title: "label", Numbers: strings.Join(parts, ", "), Result: strings.TrimSpace(w.cols.Text(catalog.FieldMaker, 0) + " " + w.cols.Text(catalog.FieldPart, 0)), Source: "the catalogue's row"})
}

// checked walks the fit checks; it gives the outcome where one fails.
func (w *walk) checked() string {
	choice := w.p.req.Choice
	if choice.To > 0 && (w.row < choice.From || w.row >= choice.To) {
		return "left out: not what the choice asks for"
	}
	choice.From, choice.To = 0, 0
	switch choice.Match(w.cols, 0) {
	case catalog.Fail:
		return "left out: not what the choice asks for"
	case catalog.Unclear:
		return "left out: does not state what the choice asks for"
	}
	var said []string
	failed := ""
	for _, c := range w.p.task.fit.report(w.cols, 0) {
		line := fmt.Sprintf("%s %s", c.Name, c.Verdict)
		if c.Note != "" {
			line += " (" + c.Note + ")"
		}
		said = append(said, line)
		if c.Verdict == catalog.Fail && failed == "" {
			failed = fmt.Sprintf("left out: %s: %s", c.Name, c.Note)
		}
	}
	result := "fits"
	if failed != "" {
		result = "does not fit"
	}
	w.add(Step{Title: "fit", Numbers: strings.Join(said, "; "), Result: result, Source: "common practice"})
	return failed
}

func (w *walk) rated() (rated, lack) {
	if !w.fitted {
		var r rated
		why := w.ground.rate(0, &r)
		return r, why
	}
	if w.p.known.noLevel {
		return w.p.known.fitted, lackLevel
	}
	return w.p.known.fitted, ""
}

// footing explains curve and level at rated speed, standard air, 1 m.
func (w *walk) footing(r *rated) {
	p0, _ := r.curve.ShutOff()
	s := Step{Title: "its curve", Formula: "straight lines between its points", Result: fmt.Sprintf("%s at no flow, %s at no pressure", pressure(p0), flow(r.free)), Source: "the catalogue's row"}
	if r.twoEnded {
		s.Formula, s.Source = "p = p₀·f(Q/Q₀), f the middle shape of "+r.kind.String()+" fans", "shapes fitted to published curves, ±20 % in flow for axial fans, ±10 % for centrifugal ones"
	}
	s.Estimate = r.estimated.has(catalog.FieldAirflow) || r.estimated.has(catalog.FieldStaticPressure) || r.estimated.has(catalog.FieldKind)
	w.add(s)
	s = Step{Title: "its level at 1 m", Result: level(r.level), Source: "label"}
	switch {
	case r.estimated.has(catalog.FieldNoise) && math.IsNaN(r.labelLevel):
		k := w.p.known.ground.similar.noise[r.kind]
		s.Formula = "L = K + 10·lg Q₀ + 20·lg p₀"
		s.Numbers = fmt.Sprintf("K = %s dB, the middle of %d similar fans (10–90 %%: %s to %s)", Plain(k.Mid), k.N, Plain(k.Low), Plain(k.High))
		s.Source, s.Estimate = "specific sound law, fitted to this catalogue", true
	case r.power:
		s.Formula, s.Numbers = "Lp = Lw − 11 dB", fmt.Sprintf("%s − 11", Plain(r.labelLevel))
		s.Source = "free field, a point source: 10·lg 4π"
	case !math.IsNaN(r.distance) && r.distance != 1:
		s.Formula, s.Numbers = "L = L_label − 20·lg(1 m/d)", fmt.Sprintf("%s dB(A) at %s m", Plain(r.labelLevel), Plain(r.distance))
		s.Source = "spherical spreading"
	}
	w.add(s)
	if n := w.p.req.Path.Fans; n > 1 {
		how := "side by side: flows add at equal pressure"
		if w.p.req.Path.Series {
			how = "one behind the other: pressures add at equal flow"
		}
		w.add(Step{Title: "several equal fans", Formula: how + "; L = L_1 + 10·lg n", Numbers: fmt.Sprintf("n = %d", n),
			Result: fmt.Sprintf("%s at no flow, %s at no pressure, %s all together", pressure(p0), flow(r.free), level(r.level)), Source: "energy sum of equal sources"})
	}
	if r.mains.done {
		w.add(Step{Title: "mains frequency", Numbers: mainsNote(r.mains), Result: level(r.level), Source: "common practice", Estimate: true})
	}
}

// evaluated explains the working points and the place.
func (w *walk) evaluated(r rated) string {
	t := &w.p.task
	e := evaluation{rated: r}
	o, why := w.p.ask(&e, w.fitted)
	if o == unrankable {
		return "left out: " + string(why)
	}
	if o == alarmed {
		return fmt.Sprintf("left out: tach: %s rpm at full speed on this supply, the device alarms below %s rpm: 10 %% are kept for the tolerance of speed", Plain(60*e.top*r.turns), Plain(60*t.alarm(&r)))
	}
	w.speeds(&e)
	if o == weak {
		return fmt.Sprintf("left out: too weak: %s at full speed, %s %% short", flow(e.full.Q), Plain(100*(1-e.full.Q/t.need)))
	}
	full, matched, planned := t.points(&e)
	w.loudness(&e, matched)
	w.plan(&e, planned, matched)
	w.warmth(full, planned)
	return w.place(planned, full)
}

func (w *walk) speeds(e *evaluation) {
	t := &w.p.task
	w.add(Step{About: TopicFull, Title: "full speed here", Formula: "p(Q) = Δp(Q) at the speed this supply gives",
		Numbers: fmt.Sprintf("r = %s of rated speed", Plain(e.top)), Result: fmt.Sprintf("%s at %s", flow(e.full.Q), pressure(e.full.P)), Source: "fan curve × resistance"})
	k := t.system.Loss(t.need) / (t.need * t.need)
	w.add(Step{About: TopicSpeed, Title: "speed that just gives the need", Formula: "p(x)/x² = Δp(Q_need)/Q_need², r = Q_need/x",
		Numbers: fmt.Sprintf("%s Pa/(m³/h)² at x = %s; r = %s/%s", Plain(perHour(perHour(k))), flow(e.match.X), Plain(toHour(t.need)), Plain(toHour(e.match.X))),
		Result:  fmt.Sprintf("%s %% of rated speed", Plain(100*e.match.Ratio)), Source: "affinity laws: Q ~ N, p ~ N²"})
}

func (w *walk) loudness(e *evaluation, matched Point) {
	t, r := &w.p.task, &e.rated
	off, low, high := acoustics.OffBest(wheelOf(r.kind), e.q())
	w.add(Step{Title: "off its best point", Formula: "A(q), q = x/Q₀",
		Numbers: fmt.Sprintf("q = %s/%s = %s", Plain(toHour(e.match.X)), Plain(toHour(r.free)), Plain(e.q())),
		Result:  fmt.Sprintf("%+.1f dB (%+.1f to %+.1f)", float64(off), float64(low), float64(high)), Source: "off-duty curve of VDI 2081 with V_opt = 0.6·Q₀, the latter common practice", Estimate: off != 0})
	_, below := acoustics.AtSpeed(quantity.PressureLevel(0), e.match.Ratio)
	formula := "L = L_1m + A + 50·lg r"
	if below {
		formula = "L = L_1m + A + 50·lg 0.5 + 40·lg(r/0.5)"
	}
	numbers := fmt.Sprintf("%s %+.1f, r = %s", Plain(r.level), float64(off), Plain(e.match.Ratio))
	if t.density != 1.2 {
		formula, numbers = formula+" + 20·lg(ρ/1.2)", numbers+fmt.Sprintf(", ρ = %s", Plain(t.density))
	}
	if w.p.seat.Offset != 0 {
		formula, numbers = formula+" + E", numbers+fmt.Sprintf(", E = %+.2f", w.p.seat.Offset)
	}
	if w.p.req.Listener != quantity.Metre {
		formula, numbers = formula+" − 20·lg(d/1 m)", numbers+fmt.Sprintf(", d = %s m", Plain(float64(w.p.req.Listener)))
	}
	w.add(Step{About: TopicLevel, Title: "level at the needed flow", Formula: formula, Numbers: numbers, Result: atListener(matched.Level), Source: "speed law of fan noise, 40 to 60 instead of 50 for single fans", Estimate: below})
}

func (w *walk) plan(e *evaluation, planned, matched Point) {
	numbers := fmt.Sprintf("from %s to %s of rated speed", Plain(e.lowest), Plain(e.top))
	result := "runs at the matched speed"
	if e.limit != LimitNone {
		result = fmt.Sprintf("%s: %s %%, %s, %s", limitWords[e.limit], Plain(100*planned.Ratio), flow(planned.Q), atListener(planned.Level))
	}
	w.add(Step{Title: "speed it is run at", Formula: slowWords[w.p.task.slow], Numbers: numbers, Result: result, Source: "lowest speed: " + e.floor.String()})
	w.heard(e, planned)
}

// heard explains the loudness.
func (w *walk) heard(e *evaluation, planned Point) {
	c := contender{evaluation: *e, mark: mark{row: w.markRow()}, cols: w.cols, planLevel: planned.Level}
	l := w.p.loudnessOf(&c)
	if math.IsNaN(l.Sone) {
		return
	}
	s := Step{Title: "loudness", Formula: "28 third octaves, moved along the frequency axis with the speed and scaled to the level; then ISO 532-1, free field",
		Numbers: fmt.Sprintf("%s, at %s %% of the speed it holds for, scaled to %.1f dB(A)", l.Spectrum, Plain(100*e.planned/w.p.spectrumFor(&c).ratio), planned.Level.DB),
		Result:  fmt.Sprintf("%.2f sone, %.1f phon", l.Sone, l.Phon), Source: "ISO 532-1:2017, stationary loudness", Estimate: !l.Measured}
	if !l.Measured {
		s.Result += fmt.Sprintf("; %.2f to %.2f sone by other typical spectra of %s fans", l.Low, l.High, e.rated.kind)
		s.Source += "; typical spectrum, no measurement of this fan"
	}
	if !math.IsNaN(l.Added) {
		s.Result += fmt.Sprintf("; it adds %.2f sone to the room's noise", l.Added)
	}
	w.add(s)
	if t := w.p.toneOf(&c); !math.IsNaN(t.Hz) {
		w.add(Step{Title: "blade tone", Formula: "f = blades · rpm/60", Numbers: fmt.Sprintf("%s rpm", Plain(60*e.rated.turns*e.planned)), Result: fmt.Sprintf("%s Hz, and its multiples", Plain(t.Hz)), Source: "definition"})
	}
}

// slowWords says how the device can slow its fan, by SlowBy.
var slowWords = [...]string{
	"any speed at which it runs", "full speed only", "by a linear regulator on the same supply", "by its PWM input",
}

// limitWords says why the fan is not run at the matched speed.
var limitWords = map[Limit]string{
	LimitStart: "held at the lowest speed at which it surely starts", LimitControl: "held at the lowest speed the device can set",
	LimitTach: "held above the device's alarm", LimitHeadRoom: "at full speed, the regulator has no head-room", LimitFull: "at its full speed",
}

// place finds the fan in the order and says what it was ordered by.
func (w *walk) place(planned, full Point) string {
	i := -1
	if w.study != nil {
		i = slices.IndexFunc(w.study.fine, func(c contender) bool { return c.mark.row == w.markRow() })
	}
	if i < 0 {
		return "not in the ranking"
	}
	c, rank, total := &w.study.fine[i], w.study.rankAround(), w.study.found.total
	price := "price not stated"
	if !math.IsNaN(c.price) {
		price = strings.TrimSpace(fmt.Sprintf("%.2f %s", c.price, c.currency))
	}
	w.add(Step{About: TopicOrder, Title: "order", Formula: "whole dB, then fewer estimates, larger reserve, price, name",
		Numbers: fmt.Sprintf("%d dB(A), %d estimates, %s %% reserve, %s", c.score, c.doubts, Plain(100*c.margin), price),
		Result:  fmt.Sprintf("rank %d of %d", rank, total), Source: fmt.Sprintf("quieter than %s dB(A) counts as that", Plain(leastHeard(w.p.req.Room)))})
	return fmt.Sprintf("ranked %d of %d: %s at %s, full speed %s", rank, total, atListener(planned.Level), flow(planned.Q), flow(full.Q))
}

func toHour(q float64) float64  { return float64(quantity.Flow(q) / quantity.CubicMetrePerHour) }
func perHour(k float64) float64 { return k * float64(quantity.CubicMetrePerHour) }

func flow(q float64) string     { return Plain(toHour(q)) + " m³/h" }
func pressure(p float64) string { return Plain(p) + " Pa" }
func level(l float64) string    { return fmt.Sprintf("%.1f dB(A)", l) }

func atListener(l Level) string {
	if l.Under {
		return "under " + level(l.DB)
	}
	return level(l.DB)
}
