package view

import (
	"strings"
	"testing"

	"lowsone/catalog"
)

func TestBandsText(t *testing.T) {
	for _, r := range []struct{ name, bands, want string }{
		{"octaves", "31.5:40.27;63:41;1000:33.5;16000:-2", "octaves, unweighted dB: 31.5 Hz 40.3, 63 Hz 41, 1 kHz 33.5, 16 kHz -2"},
		{"third octaves", "1000:30;1250:29;12500:8", "third octaves, unweighted dB: 1 kHz 30, 1.25 kHz 29, 12.5 kHz 8"},
	} {
		bands, err := catalog.ParseBands(r.bands)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.ReplaceAll(bandsText(bands), figureBlank, " "); got != r.want {
			t.Errorf("%s: bandsText(%s) = %q, want %q", r.name, r.bands, got, r.want)
		}
	}
}
