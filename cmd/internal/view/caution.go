package view

import "strings"

// Caution stands once under every result by which someone may open a device.
const Caution = "Mains inside, capacitors keep charge, spinning blades, hot parts, intense light: " +
	"unplug, wait, cover. Never defeat a thermal cut-out or a fan alarm. Medical, safety and fire-protection devices, " +
	"sealed mains modules and ducts that carry fumes are for licensed people. " +
	"Local electrical codes and the maker's instructions come first."

func (p *printer) caution() {
	if p.style.Cautioned {
		return
	}
	p.line("")
	p.wrapped("", "Caution: "+strings.ToLower(Caution[:1])+Caution[1:])
}
