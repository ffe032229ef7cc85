"""Labs: tickets, the unit a ticket draws, questions, misconceptions, and the readings a lab needs."""
