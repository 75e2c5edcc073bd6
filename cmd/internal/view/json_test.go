package view

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestWriteJSON(t *testing.T) {
	doc := struct {
		Schema
		Flow    Number       `json:"flow_m3h,omitzero"`
		Unknown Number       `json:"unknown,omitzero"`
		Zero    Number       `json:"zero,omitzero"`
		Empty   List[string] `json:"empty"`
		Full    List[Number] `json:"full"`
		Text    string       `json:"text"`
	}{Flow: 1e6 / 3, Unknown: Number(math.NaN()), Full: List[Number]{1e-7, 12}, Text: "<\x1b\u009b\u202e\x7f>"}
	var b bytes.Buffer
	if err := WriteJSON(&b, doc); err != nil {
		t.Fatal(err)
	}
	want := `{
  "schema_version": 1,
  "flow_m3h": 333333.3333,
  "zero": 0,
  "empty": [],
  "full": [
    0.0000001,
    12
  ],
  "text": "<\u001b\u009b\u202e\u007f>"
}
`
	if b.String() != want {
		t.Errorf("WriteJSON = %s, want %s", b.String(), want)
	}
}

func TestNumberRefusesWhatJSONCannotHold(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if err := WriteJSON(&bytes.Buffer{}, Number(v)); err == nil {
			t.Errorf("WriteJSON(%v) wrote it, want an error", v)
		}
	}
}

// Property: JSON read back is the text that went in, and holds nothing that a
// terminal obeys.
func TestJSONIsSafeAndWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.String().Draw(t, "text")
		var b bytes.Buffer
		if err := WriteJSON(&b, object{{in, in}}); err != nil {
			t.Fatal(err)
		}
		if strings.ContainsFunc(strings.ReplaceAll(b.String(), "\n", ""), func(r rune) bool { return r < ' ' || hidden(r) }) {
			t.Fatalf("JSON of %q is %q", in, b.String())
		}
		var back map[string]string
		if err := json.Unmarshal(b.Bytes(), &back); err != nil || back[in] != in {
			t.Fatalf("JSON of %q reads back as %q, %v", in, back, err)
		}
	})
}
