// Package store keeps a garden's memory in one SQLite file: the diary, the
// forecasts as they were issued, the hours that were measured.
//
// What was acknowledged is on disk: every write is one transaction, synced
// before the call returns, so that a killed program loses nothing it said it
// had kept. Nothing is overwritten. An amended entry and a corrected hour are
// new rows, and the old ones stay for who wants to look back.
//
// The file's layout has a version (user_version). An older file is brought up to
// date when it is opened for writing, step by step with migrations/*.sql; a
// newer one is left alone. application_id tells our files from others, which
// are never touched.
package store
