using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Api;

/// <summary>A session of testing, as the interface and the command say it.</summary>
/// <param name="Fact">Id of the fact, to annul it by.</param>
/// <param name="Author">Id of who stated it.</param>
/// <param name="Name">Its name.</param>
/// <param name="StartUtc">When it began, an instant in UTC.</param>
/// <param name="StopUtc">When it ended, an instant in UTC.</param>
internal sealed record SessionView(string Fact, string Author, string Name, string StartUtc, string StopUtc)
{
    /// <summary>The sessions of a campaign, by their begin.</summary>
    public static IReadOnlyList<SessionView> Of(Register.Register register, string campaign) =>
        [.. TestSessions.Of(register, campaign).All.Select(s => new SessionView(s.Fact.ToString(), s.Author, s.Name, Text(s.FromMs), Text(s.ToMs)))];

    /// <summary>What sessions are for, and whether the campaign's profile asks for them.</summary>
    public static string Meaning(Register.Register register, string campaign)
    {
        var profile = register.Campaign(campaign)?.Plan is { } plan ? register.Profile(plan.Profile) : null;
        var whole = "A session reaches from its first check to its last one and may run over midnight.";
        return profile?.Limit(LimitKey.CheckTestDay) is not null
            ? $"By {profile.Written.Name} checks serve the testing of one day at the site alone, or of one session. {whole}"
            : profile?.Value(LimitKey.CheckSpanHours) is not null
                ? $"By {profile.Written.Name} checks serve by hours: sessions change nothing there. {whole}"
                : $"Checks of one day or of one session belong together. {whole}";
    }

    private static string Text(long ms) => Occurred.At(DateTimeOffset.FromUnixTimeMilliseconds(ms)).ToString();
}
