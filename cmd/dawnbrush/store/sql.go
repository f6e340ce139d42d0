package store

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"strconv"
	"strings"

	"github.com/ncruces/go-sqlite3"
)

//go:embed migrations/*.sql
var migrationFiles embed.FS

// migrations lists the steps, the first one making version 1.
func migrations() []string {
	entries, err := fs.ReadDir(migrationFiles, "migrations")
	if err != nil {
		panic(err)
	}
	var out []string
	for i, e := range entries {
		if !strings.HasPrefix(e.Name(), fmt.Sprintf("%04d_", i+1)) {
			panic("migrations are not numbered in order: " + e.Name())
		}
		text, err := fs.ReadFile(migrationFiles, "migrations/"+e.Name())
		if err != nil {
			panic(err)
		}
		out = append(out, string(text))
	}
	return out
}

// newest is the version that this program writes.
func newest() int {
	entries, err := fs.ReadDir(migrationFiles, "migrations")
	if err != nil {
		panic(err)
	}
	return len(entries)
}

// migrate brings a file of an earlier version up to date, all steps or none.
func migrate(db *sqlite3.Conn, version int) (err error) {
	if version >= newest() {
		return nil
	}
	if err := db.Exec("BEGIN IMMEDIATE"); err != nil {
		return err
	}
	defer func() {
		if !db.GetAutocommit() {
			err = errors.Join(err, db.Exec("ROLLBACK"))
		}
	}()
	now, err := number(db, "PRAGMA user_version") // another process may have done it meanwhile
	if err != nil {
		return err
	}
	for i, step := range migrations() {
		if i < int(now) {
			continue
		}
		if err := db.Exec(step); err != nil {
			return err
		}
	}
	if int(now) < newest() {
		if err := db.Exec("PRAGMA user_version=" + itoa(newest())); err != nil {
			return err
		}
	}
	return db.Exec("COMMIT")
}

func itoa(n int) string { return strconv.Itoa(n) }

// number gives the single number a query asks for.
func number(db *sqlite3.Conn, sql string, args ...any) (n int64, err error) {
	err = query(db, sql, args, func(row *sqlite3.Stmt) error {
		n = row.ColumnInt64(0)
		return nil
	})
	return n, err
}

// query runs a statement and hands each row to f; nil looks at none.
func query(db *sqlite3.Conn, sql string, args []any, f func(row *sqlite3.Stmt) error) (err error) {
	st, _, err := db.Prepare(sql)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, st.Close()) }()
	return run(st, args, f)
}

// run binds a prepared statement, steps through it and makes it ready anew.
func run(st *sqlite3.Stmt, args []any, f func(row *sqlite3.Stmt) error) error {
	for i, a := range args {
		if err := bind(st, i+1, a); err != nil {
			return err
		}
	}
	for st.Step() {
		if f == nil {
			continue
		}
		if err := f(st); err != nil {
			return errors.Join(err, st.Reset())
		}
	}
	if err := st.Err(); err != nil {
		_ = st.Reset() // gives the same error again
		return err
	}
	return st.Reset()
}

// bind takes the few kinds of values that are kept here.
func bind(st *sqlite3.Stmt, at int, a any) error {
	switch v := a.(type) {
	case nil:
		return st.BindNull(at)
	case int:
		return st.BindInt(at, v)
	case int64:
		return st.BindInt64(at, v)
	case float64:
		return st.BindFloat(at, v)
	case bool:
		return st.BindBool(at, v)
	case string:
		return st.BindText(at, v)
	case []byte:
		return st.BindBlob(at, v)
	}
	panic(fmt.Sprintf("store: no way to keep a %T", a))
}
