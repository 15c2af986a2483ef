using MicRegister.Server.Api;

namespace MicRegister.Server.Pages.Shell;

/// <summary>What others said of a subject while a person was typing about it.</summary>
/// <param name="Meanwhile">Their facts, oldest first.</param>
public sealed record Clash(IReadOnlyList<FactRow> Meanwhile)
{
    /// <summary>The facts about a subject that came since it had a version.</summary>
    public static Clash Of(Register.Register register, string subject, int saw)
    {
        var sequences = register.Facts(subject).Order().ToList();
        return new([.. sequences.Skip(saw).Select(s => FactRow.Of(register, s))]);
    }
}
