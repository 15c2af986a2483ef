using MicRegister.Register.Facts;

namespace MicRegister.Register;

/// <summary>Who says something at the desk, and what they saw when they said it.</summary>
/// <param name="Stamp">When, who, where.</param>
/// <param name="SawVersion">Version of the subject that was on the screen; null takes whatever it is.</param>
/// <param name="SawSubject">The subject that was on the screen; null means the first one of what is said.</param>
public sealed record Saying(FactStamp Stamp, int? SawVersion = null, string? SawSubject = null)
{
    /// <summary>One fact, or a conflict where the subject changed meanwhile.</summary>
    public Result<IReadOnlyList<Fact>> Of(Register register, FactBody body, params IReadOnlyList<string> subjects)
    {
        if (Changed(register, subjects[0]) is { } changed) return changed;
        return new Result<IReadOnlyList<Fact>>.Accepted([FactText.WriteDerived(Stamp, body, subjects)]);
    }

    /// <summary>The same on a day of its own, such as that of a calibration.</summary>
    public Result<IReadOnlyList<Fact>> On(DateOnly day, Register register, FactBody body, params IReadOnlyList<string> subjects) =>
        (this with { Stamp = Stamp with { Occurred = Occurred.On(day) } }).Of(register, body, subjects);

    internal static Rejection Invalid(string text) => new(RejectionSort.Invalid, text);

    /// <summary>The conflict where the subject that was on the screen changed meanwhile; null where it did not.</summary>
    internal Rejection? Changed(Register register, string first)
    {
        var now = register.Version(SawSubject ?? first);
        return SawVersion is { } saw && now != saw ? new(RejectionSort.Conflict, $"It changed meanwhile: you saw version {saw}, now it is version {now}. Look at both and say it again.") : null;
    }
}
