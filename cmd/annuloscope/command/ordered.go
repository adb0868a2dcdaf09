package command

import (
	"context"

	"golang.org/x/sync/errgroup"
)

// ordered makes items 0 … n−1 on the given number of threads and hands each to sink in the order of its index, on one
// goroutine. At most window items are being made or waiting their turn, so that memory does not grow with n. start is
// called once a thread and returns its maker. The first error, of a maker, of sink or of ctx, stops everything.
func ordered[T any](ctx context.Context, n, threads, window int, start func() func(i int) (T, error), sink func(i int, item T) error) error {
	if threads < 1 || window < threads {
		panic("command: ordered needs a thread, and a window of at least as many")
	}
	group, ctx := errgroup.WithContext(ctx)
	type job struct {
		i    int
		done chan T
	}
	jobs, turn := make(chan job), make(chan job, window)
	slots := make(chan struct{}, window)
	group.Go(func() error {
		defer close(jobs)
		defer close(turn)
		for i := range n {
			select {
			case slots <- struct{}{}:
			case <-ctx.Done():
				return ctx.Err()
			}
			j := job{i, make(chan T, 1)}
			turn <- j // has room: one place a slot
			select {
			case jobs <- j:
			case <-ctx.Done():
				return ctx.Err()
			}
		}
		return nil
	})
	for range threads {
		group.Go(func() error {
			work := start()
			for j := range jobs {
				item, err := work(j.i)
				if err != nil {
					return err
				}
				j.done <- item
			}
			return nil
		})
	}
	group.Go(func() error {
		for j := range turn {
			select {
			case item := <-j.done:
				if err := sink(j.i, item); err != nil {
					return err
				}
				<-slots
			case <-ctx.Done():
				return ctx.Err()
			}
		}
		return nil
	})
	return group.Wait()
}
