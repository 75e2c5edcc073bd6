package view

import (
	"io"

	"lowsone/catalog"
	"lowsone/match"
)

// Explanation walks one fan from its label to its place.
type Explanation struct {
	Fan         *catalog.Fan
	Explanation *match.Explanation
}

type stepJSON struct {
	Number   int    `json:"step"`
	Title    string `json:"title"`
	Formula  string `json:"formula,omitempty"`
	Numbers  string `json:"numbers,omitempty"`
	Result   string `json:"result,omitempty"`
	Source   string `json:"source,omitempty"`
	Estimate bool   `json:"estimate"`
}

// JSON gives the object of rank --explain.
func (d *Explanation) JSON() any {
	j := struct {
		Schema
		Part    string         `json:"part"`
		Maker   string         `json:"maker,omitempty"`
		Outcome string         `json:"outcome"`
		Steps   List[stepJSON] `json:"steps"`
		Caution string         `json:"caution"`
	}{Part: d.Fan.Part, Maker: d.Fan.Maker, Outcome: d.Explanation.Outcome, Caution: Caution}
	for i, s := range d.Explanation.Steps {
		j.Steps = append(j.Steps, stepJSON{i + 1, s.Title, s.Formula, s.Numbers, s.Result, s.Source, s.Estimate})
	}
	return j
}

// Text writes the steps for people.
func (d *Explanation) Text(w io.Writer, s Style) error {
	p := &printer{w: w, style: s.within(proseWidth)}
	p.wrapped("", Clean(d.Fan.Name()+": "+d.Explanation.Outcome))
	marked := false
	for i, step := range d.Explanation.Steps {
		marked = marked || step.Estimate
		p.line("")
		p.line("%2d  %s", i+1, s.Bold(Clean(step.Title)))
		p.step(step)
	}
	if marked {
		p.line("")
		p.line("%s", s.Faint(EstimateNote))
	}
	p.caution()
	return p.err
}

// step writes formula, numbers, result and source, each on its own line below
// the title.
func (p *printer) step(step match.Step) {
	result, source := step.Result, step.Source
	if step.Estimate && result != "" {
		result = Estimated(result)
	}
	if source != "" {
		source = "[" + source + "]"
	}
	for _, line := range [...]struct{ lead, says string }{
		{"", step.Formula}, {"", step.Numbers}, {"= ", result}, {"", source},
	} {
		if line.says != "" {
			p.wrapped("    "+line.lead, Clean(line.says))
		}
	}
}
