using MicRegister.Register;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Accounts;

/// <summary>Looks once more, at the register's own door, whether a speaker may state what was decided.</summary>
internal static class Doorkeeper
{
    /// <summary>Why a speaker may not state these facts now; null where they may.</summary>
    public static Rejection? Refusal(Access access, Register.Register register, Speaker speaker, IReadOnlyList<Fact> facts)
    {
        var held = access.Now(speaker);
        if (held == Duties.None) return Forbidden(speaker.Kind == Speaker.Phone ? "This phone may not speak any more. What it holds can be handed over at the desk; nothing of it is lost." : "Your sign-in is over. What you typed is still here: sign in again in another window, then say it again.");
        foreach (var fact in facts)
        {
            var asked = DutyTable.OfFact(fact, id => FactId.TryParse(id, out var target) && register.Find(target) is var at and > 0 ? KindOf(register, at) : null);
            if (!held.Meets(asked)) return Forbidden($"To state '{fact.Kind.Replace('-', ' ')}' needs one of the duties {DutyWords.Of(asked)}; you hold {DutyWords.Of(held)}.");
            if (speaker.Campaign is { } campaign && !IsOf(register, fact, campaign)) return Forbidden($"This phone speaks of the campaign {campaign} only.");
        }
        return null;
    }

    private static string KindOf(Register.Register register, int sequence) => register.Source.Read(sequence).Kind;

    // A phone speaks of its campaign, of the devices in it, and of the people that say so.
    private static bool IsOf(Register.Register register, Fact fact, string campaign)
    {
        if (fact.Subjects.Any(s => Subject.IsCampaign(s) && Subject.Id(s) != campaign)) return false;
        if (fact.Subjects.Contains(Subject.Campaign(campaign)) || fact.Subjects.All(Subject.IsPerson)) return true;
        var planned = register.Campaign(campaign)?.Devices.ToHashSet(StringComparer.Ordinal) ?? [];
        return fact.Subjects.All(s => (Subject.IsDevice(s) && register.EntriesOf(Subject.Id(s)).Any(planned.Contains)) || s == Subject.TheRegister && fact.Body is ClientClockNoticed);
    }

    private static Rejection Forbidden(string text) => new(RejectionSort.Forbidden, text);
}
