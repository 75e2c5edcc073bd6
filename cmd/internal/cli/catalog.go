package cli

import (
	"context"
	"errors"

	"github.com/spf13/cobra"

	"lowsone/catalog"
	"lowsone/catalog/store"
	"lowsone/cmd/internal/view"
)

const catalogLong = `Catalog says where the catalogue is, which parts lists it holds, and what its
fans most often do not state.

check reads all of it and says what is damaged; repair makes what is left anew;
export writes it to a CSV; forget drops a parts list.`

const catalogExample = `  lowsone catalog
  lowsone catalog --format json`

func newCatalogCmd(s *session, run func(context.Context, *session) error) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "catalog [COMMAND]",
		Short:   "say what the catalogue holds; check, repair and keep it",
		Long:    catalogLong,
		Example: catalogExample,
		Args:    knownCommand,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return run(cmd.Context(), s)
		},
	}
	cmd.AddCommand(
		newCatalogCheckCmd(s, runCatalogCheck), newCatalogRepairCmd(s, runCatalogRepair),
		newCatalogExportCmd(s, runCatalogExport), newCatalogForgetCmd(s, runCatalogForget),
	)
	return cmd
}

func runCatalog(ctx context.Context, s *session) error {
	c, err := s.openCatalog(ctx)
	if errors.Is(err, store.ErrNone) {
		return s.noCatalog(err)
	}
	if err != nil {
		return err
	}
	defer c.Close()
	h := holdings(c.Info())
	if h.Several, h.Aside, err = several(ctx, c); err != nil {
		return err
	}
	return s.print(h)
}

// several counts the fans that several sources list, and the rows of them that do
// not count. Where damage keeps it from being known, there is none.
func several(ctx context.Context, c *store.Catalogue) (fans, aside int, err error) {
	if len(c.Info().Sources) < 2 {
		return 0, 0, nil
	}
	twins, err := c.Twins(ctx)
	var damage *store.DamagedError
	if errors.As(err, &damage) {
		return 0, 0, nil
	}
	if err != nil {
		return 0, 0, err
	}
	return twins.Parts(), twins.Rows(), nil
}

// noCatalog prints an empty result, and says how to begin.
func (s *session) noCatalog(none error) error {
	dir, err := s.catalogDir()
	if err != nil {
		return err
	}
	if !s.forPeople() {
		if err := s.print(&view.Holdings{Dir: dir}); err != nil {
			return err
		}
	}
	return &failure{exitNothing, none, hintOf(none)}
}

func holdings(info store.Info) *view.Holdings {
	h := &view.Holdings{Dir: info.Dir, Fans: info.Rows}
	for _, s := range info.Sources {
		h.Sources = append(h.Sources, view.Source{Name: s.Name, Path: s.Path, Sheet: s.Sheet, Fans: s.Rows, Imported: s.Imported})
	}
	for id, n := range info.Missing {
		if n > 0 && catalog.FieldID(id) != catalog.FieldInStock { // which stands for a number that is not stated
			h.Missing = append(h.Missing, view.Lack{Field: catalog.FieldID(id), Fans: n})
		}
	}
	return h
}
