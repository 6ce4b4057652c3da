package store

import "context"

// Select lets a test look at the database from inside a book's transaction.
func Select(ctx context.Context, b *Book, rows any, query string) error {
	return b.list(ctx, rows, query)
}
