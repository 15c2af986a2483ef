using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Checks;

/// <summary>
/// A time of testing was stated as one session, such as a night that runs over midnight; the last statement of a name counts.
/// Subject: the campaign.
/// </summary>
/// <param name="Name">Name as people call it.</param>
/// <param name="StartUtc">When it began, its first check included, as text of an instant.</param>
/// <param name="StopUtc">When it ended, its last check included, as text of an instant.</param>
public sealed record TestSessionStated(string Name, string StartUtc, string StopUtc) : FactBody;

/// <summary>A session of testing.</summary>
/// <param name="Fact">Id of the fact.</param>
/// <param name="Author">Who stated it.</param>
/// <param name="Name">Its name.</param>
/// <param name="FromMs">When it began, in milliseconds since 1970.</param>
/// <param name="ToMs">When it ended, inclusive.</param>
public sealed record TestSession(FactId Fact, string Author, string Name, long FromMs, long ToMs);

/// <summary>What test an instant belongs to: a session that people stated, otherwise the day at the site.</summary>
/// <param name="Day">The local day.</param>
/// <param name="Session">Id of the fact that stated the session; null where it lies in none.</param>
public readonly record struct TestTime(DateOnly Day, FactId? Session)
{
    /// <summary>Whether both belong to one test.</summary>
    public bool IsSameTest(TestTime other) => Session is null && other.Session is null ? Day == other.Day : Session == other.Session;
}

/// <summary>The sessions of a campaign, by their begin.</summary>
public sealed class TestSessions
{
    /// <summary>No session is longer: what lasts longer is no one day's testing.</summary>
    public const int LongestHours = 36;

    private const long LongestMs = LongestHours * 3_600_000L;

    private static readonly IReadOnlySet<string> Kinds = FactKinds.NamesOf<TestSessionStated>();

    private static readonly TestSessions None = new([]);

    private readonly long[] _latestEnd;

    private TestSessions(IReadOnlyList<TestSession> all)
    {
        All = all;
        _latestEnd = new long[all.Count];
        for (var i = 0; i < all.Count; i++) _latestEnd[i] = Math.Max(all[i].ToMs, i == 0 ? long.MinValue : _latestEnd[i - 1]);
    }

    /// <summary>All of them, by their begin.</summary>
    public IReadOnlyList<TestSession> All { get; }

    /// <summary>The sessions of a campaign, folded once a state; none where there is no campaign.</summary>
    public static TestSessions Of(Register register, string? campaign) =>
        campaign is null ? None : register.FoldEntries(Subject.Campaign(campaign), entries => Fold(register, entries), None);

    /// <summary>The session that an instant lies in, of several the one that began last; null where it lies in none.</summary>
    public TestSession? At(long instant)
    {
        for (var i = Count(instant) - 1; i >= 0 && _latestEnd[i] >= instant; i--)
        {
            if (All[i].ToMs >= instant) return All[i];
        }
        return null;
    }

    /// <summary>States a session.</summary>
    /// <param name="register">The newest state.</param>
    /// <param name="saying">Who says it.</param>
    /// <param name="campaign">Id of the campaign.</param>
    /// <param name="stated">What is said.</param>
    public static Result<IReadOnlyList<Fact>> State(Register register, Saying saying, string campaign, TestSessionStated stated)
    {
        if (register.Campaign(campaign) is not { } state) return new Rejection(RejectionSort.NotFound, $"There is no campaign {campaign}.");
        if (Devices.DeviceDecisions.Text(stated.Name, "Name") is { } wrong) return wrong;
        if (!Occurred.TryParse(stated.StartUtc, out var start) || !start.IsInstant)
            return Saying.Invalid($"Start '{stated.StartUtc}': allowed is an instant in UTC such as 2026-05-04T18:00:00.000Z.");
        if (!Occurred.TryParse(stated.StopUtc, out var stop) || !stop.IsInstant)
            return Saying.Invalid($"Stop '{stated.StopUtc}': allowed is an instant in UTC such as 2026-05-05T02:00:00.000Z.");
        var said = stated with { Name = stated.Name.Trim() };
        if (SessionOf(said) is not { } session)
        {
            return Saying.Invalid(FormattableString.Invariant($"Session '{said.Name}' from {stated.StartUtc} to {stated.StopUtc}: ")
                + FormattableString.Invariant($"allowed is an end after the begin, at most {LongestHours} hours later."));
        }
        // Two sessions at one time would leave it open which one a check belongs to.
        var others = Of(register, campaign).All.Where(s => s.Name != said.Name);
        if (others.FirstOrDefault(s => s.FromMs <= session.ToMs && session.FromMs <= s.ToMs) is { } other)
        {
            return new Rejection(RejectionSort.Conflict,
                $"Session '{said.Name}' overlaps {other.Name} of {state.Name}; annul that one, or state times that do not overlap.");
        }
        return saying.Of(register, said, Subject.Campaign(campaign));
    }

    // How many began by then.
    private int Count(long instant)
    {
        var (low, high) = (0, All.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (All[middle].FromMs <= instant) low = middle + 1;
            else high = middle;
        }
        return low;
    }

    private static TestSessions Fold(Register register, TimelineEntry[] entries)
    {
        var sessions = new Dictionary<string, TestSession>(StringComparer.Ordinal);
        foreach (var (_, fact) in register.ReadKinds(entries, Kinds))
        {
            // A fact from elsewhere may state what nobody here could: it has no effect, also on what was stated before.
            if (fact.Body is TestSessionStated said && SessionOf(said) is { } session)
                sessions[said.Name] = session with { Fact = fact.Id, Author = fact.Author };
        }
        return sessions.Count == 0 ? None
            : new([.. sessions.Values.OrderBy(s => s.FromMs).ThenBy(s => s.ToMs).ThenBy(s => s.Name, StringComparer.Ordinal)]);
    }

    // Null where its times cannot be.
    private static TestSession? SessionOf(TestSessionStated said) =>
        Occurred.TryParse(said.StartUtc, out var start) && start.IsInstant && Occurred.TryParse(said.StopUtc, out var stop) && stop.IsInstant
        && stop.UnixMilliseconds > start.UnixMilliseconds && stop.UnixMilliseconds - start.UnixMilliseconds <= LongestMs
            ? new(default, "", said.Name, start.UnixMilliseconds, stop.UnixMilliseconds)
            : null;
}
