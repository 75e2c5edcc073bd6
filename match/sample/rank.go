package sample

import (
	"cmp"
	"context"
	"fmt"
	"math"

	"lowsone/catalog"
	"lowsone/match"
)

// Options says how a ranking is drawn. Zero members take their defaults.
type Options struct {
	Confidence float64 // with which a level is to be kept, from 0.50 to 0.99; 0: 0.80
	Draws      int     // of the device; 0: 256
	Most       int     // of the contenders, the best of the nominal ranking; 0: 300
	Seed       uint64
}

// The defaults.
const (
	DefaultConfidence = 0.80
	defaultDraws      = 256
	defaultMost       = 300
)

// Bounds of a confidence: below, the other half of the cases is worse; above,
// 256 draws do not tell.
const (
	LeastConfidence = 0.50
	MostConfidence  = 0.99
)

// ConfidenceError refuses a confidence.
type ConfidenceError struct{ Confidence float64 }

// Error names what is wrong with it.
func (e *ConfidenceError) Error() string {
	return fmt.Sprintf("a confidence of %.4g %% is outside %g to %g %%", 100*e.Confidence, 100*LeastConfidence, 100*MostConfidence)
}

func (o Options) filled() (Options, error) {
	if o.Confidence == 0 {
		o.Confidence = DefaultConfidence
	}
	if !(o.Confidence >= LeastConfidence && o.Confidence <= MostConfidence) {
		return o, &ConfidenceError{o.Confidence}
	}
	if o.Draws == 0 {
		o.Draws = defaultDraws
	}
	if o.Most == 0 {
		o.Most = defaultMost
	}
	return o, nil
}

// Ranking is a ranking with how sure it is. Candidates stand in the order of
// what they keep with the confidence; the rest of the nominal ranking, which was
// not drawn, follows in its own order.
type Ranking struct {
	*match.Ranking
	Confidence float64
	Draws      int // that can be
	Dropped    int // that contradict themselves
	Asked      int // contenders that were drawn
	Air
	Sure   []*Sure  // of each candidate; nil where it was not drawn
	Fitted *Sure    // of the fitted fan where it is beyond those shown; else nil
	Causes []Cause  // of the candidate ranked first, the largest share of its level first
	Advice []Advice // what to measure next, what tells most first
}

// Air is how sure the air is that goes through the device.
type Air struct {
	Need Band // m³/s
	Now  Band // m³/s, moved by the fitted fan as it was found
	Loss Band // Pa, of the device at the needed flow with everything taken as given
}

// Sure is how sure one candidate is.
type Sure struct {
	Level    float64 // dB(A) kept with the confidence as needed; +Inf where the needed flow is not
	Kept     float64 // share of draws in which it moves the needed flow
	Limit    float64 // share of draws in which it keeps every limit as planned; NaN where no spot is watched
	Needed   Needed
	Planned  AsPlanned
	Quieter  float64 // share of draws in which it is quieter than the fitted fan as it was found; NaN where that is not known
	BeatsRow float64 // share of draws in which it is quieter than the next candidate; NaN for the last
	Group    int     // from 1: candidates of one group cannot be told apart with the confidence
}

// Needed is a fan adjusted to the needed flow.
type Needed struct {
	Ratio, Level Band
	Sone         Band // its spectrum drawn too where it is not measured; NaN where none is known
}

// AsPlanned is a fan at the speed planned.
type AsPlanned struct {
	Flow, Level Band
	Spots       []Band // °C, of each watched spot
	Over        Band   // K, of the spot that is farthest above its limit, or least below
}

// Rank ranks a request by what each fan keeps with a confidence. Errors are
// those of match.Rank, a *ConfidenceError or a *ContradictionError.
func Rank(ctx context.Context, source catalog.Fans, req match.Request, o Options) (*Ranking, error) {
	o, err := o.filled()
	if err != nil {
		return nil, err
	}
	study, err := looked(ctx, source, req, o.Most, cmp.Or(req.Top, math.MaxInt32))
	if err != nil {
		return nil, err
	}
	d, err := drawDevices(study, o.Draws, o.Seed)
	if err != nil {
		return nil, err
	}
	fans, err := askFans(ctx, study, d, o)
	if err != nil {
		return nil, err
	}
	return answer(study, d, fans, o, req.Top)
}

// looked gives a study with its contenders: those that are drawn, and those shown.
func looked(ctx context.Context, source catalog.Fans, req match.Request, most, shown int) (*match.Study, error) {
	study, err := match.NewStudy(ctx, source, req)
	if err != nil {
		return nil, err
	}
	return study, study.Look(ctx, max(most, shown), most, ample)
}

// askFans asks the best contenders under every draw and puts them in order.
func askFans(ctx context.Context, study *match.Study, d *devices, o Options) ([]fan, error) {
	all := study.Contenders()
	drawn := contendersDrawn(all, o.Most)
	fans := make([]fan, 0, min(len(all), o.Most))
	at := placesOf(len(d.drawn), o.Seed, "fan")
	for i, c := range all {
		if !drawn[i] && !c.Fitted {
			continue
		}
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		f := askFan(d, c, i, at)
		f.promise(o.Confidence)
		f.score = study.Score(f.level)
		fans = append(fans, f)
	}
	order(fans)
	return fans, nil
}

// ample is the spare flow from which on a fan is likely to move the needed flow
// whatever is drawn.
const ample = 0.15

// contendersDrawn says which contenders are drawn: the first half of those there
// is room for by the nominal order, the other half by that order among those with
// ample flow, and what room is left by the order again.
func contendersDrawn(all []match.Contender, most int) []bool {
	drawn, left := make([]bool, len(all)), most
	take := func(upTo int, may func(i int) bool) {
		for i := range all {
			if left > upTo && !drawn[i] && may(i) {
				drawn[i] = true
				left--
			}
		}
	}
	whatever := func(int) bool { return true }
	take(most/2, whatever)
	take(0, func(i int) bool { return all[i].Margin >= ample })
	take(0, whatever)
	return drawn
}

// answer puts what was drawn into words.
func answer(study *match.Study, d *devices, fans []fan, o Options, top int) (*Ranking, error) {
	first := make([]int, len(fans))
	for i := range fans {
		first[i] = fans[i].index
	}
	nominal, err := study.RankingOf(first, top)
	if err != nil {
		return nil, err
	}
	r := &Ranking{Ranking: nominal, Confidence: o.Confidence, Draws: len(d.drawn), Dropped: d.dropped, Asked: len(fans)}
	r.Air = airOf(d, nominal.Need)
	shown := fans[:min(len(fans), len(nominal.Candidates)+1)] // and the next one, to compare with
	for i := range shown {
		shown[i].askApart(d, o.Seed)
	}
	groups := group(shown, o.Confidence)
	for i := range nominal.Candidates {
		if i >= len(fans) {
			r.Sure = append(r.Sure, nil)
			continue
		}
		sure := fans[i].sure(d)
		sure.Needed.Sone = bandOf(fans[i].sones(study, o.Seed))
		sure.Group, sure.BeatsRow = groups[i], math.NaN()
		if i+1 < len(fans) {
			sure.BeatsRow = fans[i].quieter(&fans[i+1])
		}
		r.Sure = append(r.Sure, sure)
	}
	if nominal.Fitted != nil && nominal.Fitted.Rank <= len(fans) {
		f := &fans[nominal.Fitted.Rank-1]
		r.Fitted = f.sure(d)
		r.Fitted.Needed.Sone, r.Fitted.BeatsRow = bandOf(f.sones(study, o.Seed)), math.NaN()
	}
	if len(fans) > 0 {
		t := ofFirst(d, &fans[0])
		r.Causes = t.causes(study.Unknowns())
		r.Advice = t.advice(r.Causes)
	}
	return r, nil
}

// airOf gives the bands of the device itself, its loss at the flow need.
func airOf(d *devices, need float64) Air {
	var needs, nows, losses []float64
	for _, one := range d.drawn {
		n, now := one.Need()
		needs, nows, losses = append(needs, n), append(nows, now), append(losses, one.System().Loss(need))
	}
	return Air{bandOf(needs), bandOf(nows), bandOf(losses)}
}

// group numbers candidates in their order: one begins a new group when the first
// of the group is quieter in a share of draws that the confidence asks for.
func group(fans []fan, confidence float64) []int {
	out := make([]int, len(fans))
	head, n := 0, 1
	for i := range fans {
		if i > 0 && fans[head].quieter(&fans[i]) >= confidence {
			head, n = i, n+1
		}
		out[i] = n
	}
	return out
}

// sure gives how sure a fan is.
func (f *fan) sure(d *devices) *Sure {
	s := &Sure{Level: f.level, Kept: f.kept, Limit: math.NaN(), Quieter: math.NaN()}
	var ratios, levels []float64
	known, quieter := 0, 0.0
	for k, o := range f.outcomes {
		ratios, levels = append(ratios, o.Ratio), append(levels, o.Level)
		now := d.drawn[k].Now()
		if math.IsNaN(now) {
			continue
		}
		known++
		switch {
		case o.Enough && o.Level < now-asLoud:
			quieter++
		case o.Enough && math.Abs(o.Level-now) <= asLoud:
			quieter += 0.5
		}
	}
	if known > 0 {
		s.Quieter = quieter / float64(known)
	}
	s.Needed = Needed{Ratio: bandOf(ratios), Level: bandOf(levels)}
	s.plan(f, d)
	return s
}

// asLoud is the difference in dB below which two levels are one: rounding.
const asLoud = 1e-9

// plan sets what the fan does at the speed planned.
func (s *Sure) plan(f *fan, d *devices) {
	var flows, levels, over []float64
	var spots [][]float64
	for k, one := range d.drawn {
		p, ok := one.Planned(f.index, &f.draws[k])
		if !ok {
			continue
		}
		flows, levels, over = append(flows, p.Flow), append(levels, p.Level), append(over, p.Over)
		if spots == nil {
			spots = make([][]float64, len(p.Spots))
		}
		for i, t := range p.Spots {
			spots[i] = append(spots[i], t)
		}
	}
	s.Planned = AsPlanned{Flow: bandOf(flows), Level: bandOf(levels), Over: bandOf(over)}
	for _, t := range spots {
		s.Planned.Spots = append(s.Planned.Spots, bandOf(t))
	}
	if len(spots) > 0 {
		s.Limit = share(over, func(k float64) bool { return k <= 0 }) * float64(len(over)) / float64(len(d.drawn))
	}
}
