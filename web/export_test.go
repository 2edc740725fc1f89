package web

// WriteShelf lets the browser tests make a new version of a built page.
var WriteShelf = writeShelf

// Fingerprint lets them hold a file against the list of all.
var Fingerprint = fingerprint

// Built returns where the page lies that the tests share; those outside the
// package set it.
var Built func() (string, error)
