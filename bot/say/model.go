package say

// ModelLacks says what the vehicle model leaves out, once in /help.
const ModelLacks = "The vehicle model has no yaw, driver, friction, bump stop, camber by travel or tyre heat in it, and promises no lap time. " +
	"The trade may be right through any of these: its order stands."
