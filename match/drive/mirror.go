package drive

import "math"

// Mirrored is several fans on one output: one supply, one PWM signal.
type Mirrored struct {
	Current      float64 // A together at full speed; NaN where one is not known
	StartCurrent float64 // A while all of them start at once, at twice that
	InputCurrent float64 // A that their PWM inputs may give together
	Supply       Verdict // Current and StartCurrent against what the supply gives
	Inputs       Verdict // InputCurrent against what the output can sink
}

// Mirror returns what several fans on one output ask of it. They run at the same
// share of full speed, each of its own; only one tach can be read, so a stopped
// fan among the others is not noticed. current is what the supply lead gives,
// sink what the PWM output takes while low, in A; NaN where it is not known. A
// supply that bears the fans running but not all of them starting is Doubtful.
func Mirror(fans []Load, current, sink float64) Mirrored {
	var m Mirrored
	driven := 0
	for _, l := range fans {
		if known(l.RatedCurrent) {
			m.Current += l.RatedCurrent
		} else {
			m.Current = math.NaN()
		}
		if l.PWM {
			driven++
		}
	}
	m.StartCurrent = startTimes * m.Current
	m.InputCurrent = PWMInputCurrent * float64(driven)
	m.Supply = bears(current, m.Current, m.StartCurrent)
	switch {
	case !known(sink):
	case driven <= InputsPerOutput(sink):
		m.Inputs = Passes
	default:
		m.Inputs = Fails
	}
	return m
}

// bears holds a supply's current against what fans draw running and starting.
func bears(current, running, starting float64) Verdict {
	switch {
	case !known(current) || math.IsNaN(running):
		return Unknown
	case running > current:
		return Fails
	case starting > current:
		return Doubtful
	}
	return Passes
}

// WithinPWM tells whether a fan's rated current is within the published
// specification of fans with a PWM input: 1.5 A running, and 2.2 A while it
// starts. Unknown where the current is not known.
func WithinPWM(l Load) Verdict {
	if !known(l.RatedCurrent) {
		return Unknown
	}
	if l.RatedCurrent > PWMSteady {
		return Fails
	}
	if startTimes*l.RatedCurrent > PWMStart {
		return Doubtful
	}
	return Passes
}
