// Cephes by the CommonJS build of its package: it unpacks itself with Node's own decoder, in a third of the other build's time.
module.exports = require("cephes");
