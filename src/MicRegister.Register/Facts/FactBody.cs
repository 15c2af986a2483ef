namespace MicRegister.Register.Facts;

/// <summary>What a fact says, beside who said it when. Its kind and version are found in <see cref="FactKinds"/>.</summary>
public abstract record FactBody;

/// <summary>A body that this version cannot read: an unknown kind, a newer version, or a body that does not fit its kind.</summary>
/// <param name="Why">What could not be read, for people.</param>
public sealed record UnreadBody(string Why) : FactBody;

/// <summary>An earlier fact does not count. An annulment can itself be annulled.</summary>
/// <param name="Target">Id of the fact that does not count.</param>
/// <param name="Reason">Why, for whoever reads the journal.</param>
public sealed record FactAnnulled(string Target, string Reason) : FactBody;
