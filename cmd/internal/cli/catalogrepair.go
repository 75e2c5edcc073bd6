package cli

import (
	"context"

	"github.com/spf13/cobra"

	"lowsone/catalog/store"
	"lowsone/cmd/internal/view"
)

const catalogRepairLong = `Repair checks the catalogue, as lowsone catalog check does, and where something
is damaged makes it anew of the records of which a whole copy is left: in place,
or in the catalogue before the last import, which is kept in reserve.

What is lost is told by source: importing that parts list again brings it back.
The damaged catalogue stays until the new one stands. Where nothing is damaged,
nothing is written.`

func newCatalogRepairCmd(s *session, run func(context.Context, *session) error) *cobra.Command {
	return &cobra.Command{
		Use:         "repair",
		Short:       "make a damaged catalogue anew of what is left",
		Long:        catalogRepairLong,
		Example:     `  lowsone catalog repair`,
		Annotations: noListForm(),
		Args:        exactly(0, "repair takes flags only; another folder: --catalog DIR"),
		RunE:        func(cmd *cobra.Command, _ []string) error { return run(cmd.Context(), s) },
	}
}

func runCatalogRepair(ctx context.Context, s *session) error {
	dir, err := s.catalogDir()
	if err != nil {
		return err
	}
	report, stop := s.storeProgress("repairing")
	done, err := store.Repair(ctx, dir, s.env.Now(), report)
	stop()
	if err != nil {
		return err
	}
	if err := s.print(&view.CatalogRepair{Repaired: done}); err != nil {
		return err
	}
	for _, line := range importAgain(done.Report.Sources, done.Lost) {
		s.say("hint: to bring back what is lost: %s", line)
	}
	if done.Before {
		s.say("hint: import again what was imported last")
	}
	return nil
}
