namespace MicRegister.Server.Tests.Accounts;

/// <summary>A clock that a test sets.</summary>
internal sealed class SetTime(DateTimeOffset now) : TimeProvider
{
    public DateTimeOffset Now { get; set; } = now;

    public override DateTimeOffset GetUtcNow() => Now;
}
