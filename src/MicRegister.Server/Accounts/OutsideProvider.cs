namespace MicRegister.Server.Accounts;

/// <summary>An outside provider of sign-ins.</summary>
/// <param name="Authority">Its address.</param>
/// <param name="Client">Id of this server there.</param>
/// <param name="Secret">Secret of this server there; null for a public client.</param>
/// <param name="AllowsPlain">Whether its address may be plain HTTP, as on a test bench.</param>
public sealed record OutsideProvider(string Authority, string Client, string? Secret, bool AllowsPlain = false);
