"""What every document says that someone could act on."""

CAUTIONS = (
    "This is a calculation aid. It is no permit to energise, to touch or to climb; it says which "
    "checks hold for the values given, and nothing about the state of a bushing in service.",
    "Work only on equipment that is de-energised, secured against return, proved dead, and "
    "earthed and short-circuited; charges stay behind on windings and capacitances.",
    "Porcelain can burst and throw splinters far, above all under pressure or after a flashover: "
    "keep people away from bushings under voltage, test or suspicion.",
    "Lift only at the places meant for it and with gear rated for the mass; a bushing that tips or "
    "slips does not give a second chance.",
    "Oil in old equipment may hold PCB: have it analysed before it is drained, spilt or burnt.",
    "Test taps can carry lethal voltage when they are left open: in service they must be earthed.",
    "The current editions of the standards, local codes and the judgement of licensed practice "
    "prevail over this document. Figures marked as memory or practice must be confirmed against "
    "their publication before anything is decided on them.",
)
