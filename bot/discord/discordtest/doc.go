// Package discordtest is a stand-in for the messaging platform: a local HTTP
// API, gateway and file host that is as strict as the real one. A test drives
// it as people would (type a command, press a button, fill a form, send a file)
// and the bot under test talks to it through [Platform.Client].
//
// Every rule that the platform enforces has a name. A request that breaks one
// is refused as the platform would refuse it and fails the test with that name,
// unless the test announced it with [Platform.Expect].
//
//	p := discordtest.New(t)
//	// start the bot with p.Client() and p.Token(), then
//	alice := p.Guild("Apex").Member("alice", discordtest.Roles("coach"))
//	reply := alice.Type(`/car add name:"Club racer" drive:rear`)
//	form := reply.Press("More").Form()
//	last := form.Fill(map[string]string{"Mass": "1250 kg"}).Submit()
//
// Interactions come over the gateway, or signed over HTTP after
// [Platform.DeliverTo]; what people see and do is the same.
package discordtest
