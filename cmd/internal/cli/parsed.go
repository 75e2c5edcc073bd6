package cli

// parsed is a flag whose value is read by a function of its own.
type parsed struct {
	kind string // what help calls the value
	read func(text string) error
	text string
}

func newParsed(kind string, read func(string) error) *parsed {
	return &parsed{kind: kind, read: read}
}

// Set reads the value.
func (p *parsed) Set(text string) error {
	if err := p.read(text); err != nil {
		return err
	}
	p.text = text
	return nil
}

// String gives the value as it was written.
func (p *parsed) String() string { return p.text }

// Type is what help calls the value.
func (p *parsed) Type() string { return p.kind }
