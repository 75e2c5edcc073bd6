package drive

import "strings"

// Lead is one lead of a DC fan by its number, as the trade counts them, with the
// colours that were reported for it.
type Lead struct {
	Function string
	Colours  []string // the commonest first; hints only
}

// LeadCaution is to be said wherever a colour is.
const LeadCaution = "a colour is a hint only, and sheets were found to be wrong: confirm every lead by measurement before you join it"

// leads are those of DC fans. [Leads]
var leads = [...]Lead{
	{"supply negative", []string{"black", "blue"}},
	{"supply positive", []string{"red", "yellow"}},
	{"tach or locked-rotor alarm", []string{"white", "yellow", "green", "blue"}},
	{"PWM input", []string{"blue", "brown", "white"}},
}

// Leads returns what the leads of a DC fan with 2 to 4 of them are for, nil for
// another number. Whether the third is a tach or an alarm only its sheet or a
// measurement tells.
func Leads(n int) []Lead {
	if n < 2 || n > len(leads) {
		return nil
	}
	all := make([]Lead, n)
	for i, l := range leads[:n] {
		all[i] = Lead{l.Function, append([]string(nil), l.Colours...)}
	}
	return all
}

// FunctionsOf returns every function that was reported for a colour, in the order
// of the leads; most colours have several.
func FunctionsOf(colour string) (functions []string) {
	for _, l := range leads {
		for _, c := range l.Colours {
			if strings.EqualFold(c, strings.TrimSpace(colour)) {
				functions = append(functions, l.Function)
			}
		}
	}
	return functions
}
