namespace MicRegister.Register.Fold;

/// <summary>Something that all states of a register share, earlier ones that are cut out of it included: it follows from no fact.</summary>
internal interface IOfAllStates;
