package tabular

import (
	"bytes"
	"context"
	"strings"
)

// sharedText is the table of texts that the cells of a workbook share, ECMA-376
// part 1, 18.4.9. The texts stand in few blocks, so that each costs its length and
// the place it is noted in.
type sharedText struct {
	list  []string
	block strings.Builder
	ends  []int // of the texts in the block that are not in list yet
	cost  int
}

// noted is the memory it takes to note where a text stands.
const noted = 16

// readShared reads the table; a workbook may have none.
func (w *workbook) readShared(ctx context.Context) ([]string, error) {
	t := &sharedText{}
	part, err := w.helper(kindShared)
	if err != nil {
		return nil, err
	}
	r, err := w.open(ctx, part, MaxSheet)
	if r == nil || err != nil {
		return nil, err
	}
	var item []byte
	err = w.each(part, newMarkup(r), func(m *markup) error {
		if !m.is(opens, "sst", "si") {
			return nil
		}
		item, err = m.textItem(item[:0])
		if err != nil {
			return err
		}
		t.add(item)
		if t.cost > MaxShared {
			return w.fail(ErrTooLarge, saveAsTable, "its texts take more than %d MiB", MaxShared>>20)
		}
		return nil
	})
	t.freeze()
	return t.list, err
}

// add takes a text into the table.
func (t *sharedText) add(item []byte) {
	if t.block.Len()+len(item) > chunk {
		t.freeze()
	}
	if bytes.Contains(item, []byte("_x")) {
		item = []byte(unescaped(string(item)))
	}
	t.block.Write(item)
	t.ends = append(t.ends, t.block.Len())
	t.cost += len(item) + noted
}

// freeze ends a block, and cuts the texts from it.
func (t *sharedText) freeze() {
	block, from := t.block.String(), 0
	for _, end := range t.ends {
		t.list = append(t.list, block[from:end])
		from = end
	}
	t.block, t.ends = strings.Builder{}, t.ends[:0]
}
