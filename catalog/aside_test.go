package catalog

import (
	"slices"
	"testing"
)

// Rows that are set aside, and those outside the rows asked for, pass no filter.
func TestRowsAside(t *testing.T) {
	c := ColumnsOf(slices.Repeat([]*Fan{{Part: "A1"}}, 130)...)
	c.Aside = []uint64{1 << 3, 1<<0 | 1<<63, 0}
	for _, tt := range []struct {
		name   string
		filter Filter
		want   func(i int) bool
	}{
		{"all", Filter{}, func(i int) bool { return i != 3 && i != 64 && i != 127 }},
		{"some rows", Filter{From: 2, To: 65}, func(i int) bool { return i >= 2 && i < 64 && i != 3 }},
		{"the last rows", Filter{From: 120, To: 130}, func(i int) bool { return i >= 120 && i != 127 }},
	} {
		var want []int
		for i := range c.Rows {
			if tt.want(i) {
				want = append(want, i)
			}
		}
		if got, unclear := tt.filter.Select(c); !slices.Equal(got, want) || unclear != 0 {
			t.Errorf("%s: rows %v pass, want %v", tt.name, got, want)
		}
	}
	c.Aside = nil
	if got, _ := (&Filter{}).Select(c); len(got) != 130 {
		t.Errorf("%d rows pass where none is set aside, want 130", len(got))
	}
}
