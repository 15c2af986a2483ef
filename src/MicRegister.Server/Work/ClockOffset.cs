using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Server.Accounts;

namespace MicRegister.Server.Work;

/// <summary>Notices how far a client's clock is off when it sends facts: it says its own time along.</summary>
internal static class ClockOffset
{
    /// <summary>Header with the client's clock at the moment of sending, as an instant in UTC.</summary>
    public const string Header = "Client-Clock";

    private const long WorthNoting = 2_000;

    /// <summary>More than this is no clock that runs wrong but one that was never set.</summary>
    private const long MostMs = 10L * 366 * 86_400_000;

    /// <summary>The fact that says so; null where the clock is right, unknown, or as it was noticed before.</summary>
    public static Fact? Noticed(HttpRequest request, TimeProvider time, Register.Register register, Fact first, Speaker speaker)
    {
        if (!Occurred.TryParse(request.Headers[Header].ToString(), out var said) || !said.IsInstant) return null;
        // Only a client that is this speaker's own: nobody moves the facts of others in time.
        if (first.Client != speaker.Client && !first.Client.StartsWith(speaker.Client + ".", StringComparison.Ordinal)) return null;
        var now = time.GetUtcNow();
        var offset = now.ToUnixTimeMilliseconds() - said.UnixMilliseconds;
        var known = register.ClockOffset(first.Client, first.Counter) ?? 0;
        return Math.Abs(offset - known) < WorthNoting || Math.Abs(offset) > MostMs
            ? null
            : FactText.WriteDerived(
                new(Occurred.At(now), PersonState.IdOf(speaker.Person), "server", register.Count),
                new ClientClockNoticed(first.Client, first.Counter, offset),
                [Subject.TheRegister]);
    }
}
