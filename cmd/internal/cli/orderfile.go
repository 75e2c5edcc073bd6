package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"github.com/google/renameio/v2"

	"lowsone/cmd/internal/order"
	"lowsone/cmd/internal/view"
)

// checkOutput refuses, before any work, a file that may not be replaced.
func (o *shortlistOptions) checkOutput() error {
	if o.output == "" || o.output == "-" {
		return nil
	}
	file := outputFile{path: o.output, what: "order list", one: "an order list", stdout: "-o -", ours: func(r io.Reader) bool {
		_, err := order.Read(r)
		return !errors.Is(err, order.ErrNotOrders)
	}}
	return file.check()
}

// deliver writes the list where it is wanted, and says what it comes to.
func (o *shortlistOptions) deliver(doc *view.Orders) error {
	s := o.session
	switch o.output {
	case "":
		if err := s.print(doc); err != nil {
			return err
		}
		s.say("nothing is written; -o order.csv writes the list")
	case "-":
		if err := view.Write(s.out, doc, view.FormatCSV, s.style); err != nil {
			return err
		}
	default:
		if err := writeOrders(o.output, doc); err != nil {
			return err
		}
		doc.File = o.output
		if err := s.print(doc); err != nil {
			return err
		}
		s.say("written to %s, lines: %d", o.output, len(doc.Lines))
	}
	s.say("%s", doc.Totals())
	if said := doc.Unsupplied(); said != "" {
		s.say("%s", said)
	}
	return nil
}

// writeOrders writes the whole list under another name and then gives it its
// own.
func writeOrders(path string, doc *view.Orders) error {
	var list bytes.Buffer
	if err := doc.CSV(&list); err != nil {
		return err
	}
	if err := renameio.WriteFile(path, list.Bytes(), 0o644); err != nil {
		return fmt.Errorf("write order list: %w", err)
	}
	return nil
}
