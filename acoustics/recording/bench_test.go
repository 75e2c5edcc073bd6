package recording

import (
	"bytes"
	"context"
	"strconv"
	"testing"
)

// Seconds of sound that are analysed in a second.
func BenchmarkAnalyse(b *testing.B) {
	for _, r := range []struct{ rate, channels int }{{16000, 1}, {44100, 1}, {48000, 2}, {96000, 1}} {
		b.Run(strconv.Itoa(r.rate)+"Hz_"+strconv.Itoa(r.channels)+"ch", func(b *testing.B) {
			const seconds = 30
			f := file{rate: r.rate, bits: 16}
			for c := range r.channels {
				f.channels = append(f.channels, white(r.rate, seconds, 0.05, uint64(c)))
			}
			data := f.encode()
			b.ReportAllocs()
			for b.Loop() {
				rec, err := Open(bytes.NewReader(data), "fan.wav")
				if err == nil {
					_, err = Analyse(context.Background(), rec, Options{})
				}
				if err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(seconds*float64(b.N)/b.Elapsed().Seconds(), "audio-s/s")
		})
	}
}

func BenchmarkReadBands(b *testing.B) {
	text := "Frequency [Hz];Level [dB(A)]\n" + octaveRows(";", plainOctaves...)
	for b.Loop() {
		if _, err := readTable(text, TableOptions{}); err != nil {
			b.Fatal(err)
		}
	}
}
