using MicRegister.Register.Facts;

namespace MicRegister.Register.People;

/// <summary>A person of the register got or changed the name shown for them. Subject: the person.</summary>
/// <param name="Name">A chosen display name, no more is kept.</param>
public sealed record PersonNamed(string Name) : FactBody;
