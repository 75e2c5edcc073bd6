package view

import (
	"fmt"
	"math"

	"lowsone/match"
)

// loudnessJSON is a loudness at the listener by ISO 532-1, free field.
type loudnessJSON struct {
	Sone  Number `json:"sone,omitzero"`
	Low   Number `json:"sone_low,omitzero"` // by other typical spectra
	High  Number `json:"sone_high,omitzero"`
	Phon  Number `json:"loudness_level_phon,omitzero"`
	By    string `json:"spectrum,omitempty"`       // measured or typical
	Added Number `json:"sone_above_room,omitzero"` // what it adds to the noise of the room
}

func unheard() loudnessJSON {
	nan := Number(math.NaN())
	return loudnessJSON{Sone: nan, Low: nan, High: nan, Phon: nan, Added: nan}
}

func loudnessOf(l *match.Loudness) loudnessJSON {
	if math.IsNaN(l.Sone) || l.Spectrum == "" {
		return unheard()
	}
	return loudnessJSON{Number(l.Sone), Number(l.Low), Number(l.High), Number(l.Phon), spectrumWord(l), Number(l.Added)}
}

func spectrumWord(l *match.Loudness) string {
	if l.Measured {
		return "measured"
	}
	return "typical"
}

// soneCell gives a loudness in a table, marked where its spectrum is typical.
func soneCell(l *match.Loudness) string {
	text := Digits(l.Sone, 2)
	if l.Measured {
		return text
	}
	return Estimated(text)
}

// soneText gives a loudness with its unit and what is known of it.
func soneText(l *match.Loudness) string {
	if math.IsNaN(l.Sone) || l.Spectrum == "" {
		return ""
	}
	said := soneCell(l) + " sone"
	if !l.Measured && l.Low < l.High {
		said += fmt.Sprintf(" (%s to %s by other typical spectra)", Digits(l.Low, 2), Digits(l.High, 2))
	}
	if !math.IsNaN(l.Added) {
		said += ", " + Digits(l.Added, 2) + " more than the room without it"
	}
	return said
}
