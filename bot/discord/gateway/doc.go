// Package gateway joins the messaging platform's gateway and stays there,
// joining again whenever the connection is lost, and hands over what happens
// there. The connection is the client library's, with a wire of our own between
// it and the platform: see wire.go for what the library cannot bear.
package gateway
