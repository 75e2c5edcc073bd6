package view

import (
	"strings"

	"lowsone/match"
)

// settledBy names the flag and the place in a device file that answer a question
// about the device, by match.Question.
var settledBy = [...]struct{ flag, key string }{
	match.AskNothing:   {},
	match.AskFrame:     {"--frame", "width under space"},
	match.AskDepth:     {"--depth-max", "depth under space"},
	match.AskKind:      {"--kind", "kind under space"},
	match.AskSupply:    {"--supply", "kind under supply"},
	match.AskVoltage:   {"--voltage", "voltage under supply"},
	match.AskCurrent:   {"--current-max", "current under supply"},
	match.AskWatches:   {"--watches", "watches under leads"},
	match.AskAlarm:     {"--alarm-speed", "alarm_below under leads"},
	match.AskAirTemp:   {"--air-temp", ""}, // of a device file it follows from the rest
	match.AskLeads:     {"--leads", "count under leads"},
	match.AskConnector: {"--connector", "connector under leads"},
}

// settles says what to give so that questions are settled; empty for none.
func settles(asks []match.Question, fromFile bool) string {
	var ways []string
	for _, q := range asks {
		by := settledBy[q]
		if fromFile && by.key != "" {
			ways = append(ways, by.key+" or "+by.flag)
		} else if by.flag != "" {
			ways = append(ways, by.flag)
		}
	}
	switch len(ways) {
	case 0:
		return ""
	case 1:
		return " – " + ways[0] + " settles it"
	}
	return " – " + strings.Join(ways, " and ") + " settle it"
}
