package storetest_test

import (
	"database/sql"
	"testing"
	"time"

	_ "github.com/lib/pq"

	"detent/store"
	"detent/store/storetest"
	"detent/tuning"
)

func TestMain(m *testing.M) {
	defer storetest.Leave()
	m.Run()
}

var (
	who = tuning.Who{Club: "harrow-hill", Person: "person-sam", Name: "Sam"}
	now = time.Date(2026, 5, 2, 9, 30, 0, 0, time.UTC)
)

func TestEachTestHasItsOwn(t *testing.T) {
	one, other := storetest.New(t), storetest.New(t)
	_, err := one.Once(t.Context(), who, now, "a", func(*store.Book) ([]byte, error) { return nil, nil })
	if err != nil {
		t.Fatal(err)
	}
	err = other.Read(t.Context(), who, now, func(b *store.Book) error {
		m, err := b.Member(t.Context(), who.Person)
		if m.Name != "" {
			t.Errorf("another database knows %q", m.Name)
		}
		return err
	})
	if err != nil {
		t.Error(err)
	}
}

func TestItGoesWithTheTest(t *testing.T) {
	var urls []string
	t.Run("that makes two", func(t *testing.T) {
		urls = append(urls, storetest.URL(t), storetest.Empty(t))
		for _, url := range urls {
			if err := ping(url); err != nil {
				t.Error(err)
			}
		}
	})
	for _, url := range urls {
		if ping(url) == nil {
			t.Errorf("%s is still there", url)
		}
	}
}

func ping(url string) error {
	db, err := sql.Open("postgres", url)
	if err != nil {
		return err
	}
	defer db.Close()
	return db.Ping()
}
