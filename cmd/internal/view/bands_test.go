package view

import (
	"testing"

	"lowsone/catalog"
)

func TestBandsText(t *testing.T) {
	for _, r := range []struct{ name, bands, want string }{
		{"octaves", "31.5:40.27;63:41;1000:33.5;16000:-2", "octaves, unweighted, Hz:dB 31.5:40.3; 63:41; 1000:33.5; 16000:-2"},
		{"third octaves", "1000:30;1250:29;12500:8", "third octaves, unweighted, Hz:dB 1000:30; 1250:29; 12500:8"},
	} {
		bands, err := catalog.ParseBands(r.bands)
		if err != nil {
			t.Fatal(err)
		}
		if got := bandsText(bands); got != r.want {
			t.Errorf("%s: bandsText(%s) = %q, want %q", r.name, r.bands, got, r.want)
		}
	}
}
