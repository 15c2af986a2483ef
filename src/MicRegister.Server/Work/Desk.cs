using System.Collections.Concurrent;
using System.Globalization;
using System.Runtime.CompilerServices;
using MicRegister.Documents.Curves;
using MicRegister.Metrology.Responses;
using MicRegister.Register;
using MicRegister.Register.Checks;
using MicRegister.Register.Drift;
using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Register.Readiness;
using MicRegister.Server.Accounts;

namespace MicRegister.Server.Work;

/// <summary>The register behind the desk: what day it is, who speaks, and how an answer becomes a response.</summary>
public sealed class Desk(LiveRegister live, TimeProvider time, DateOnly? fixedDay, Access? access = null)
{
    private readonly ConditionalWeakTable<Register.Register, ConcurrentDictionary<string, ReadinessReport?>> _judged = [];
    private readonly ConditionalWeakTable<Register.Register, ConcurrentDictionary<string, IReadOnlyList<CheckRecord>>> _checked = [];
    // Goes on across restarts: of two statements of one time, the later one counts.
    private long _counter = time.GetUtcNow().ToUnixTimeSeconds();

    private readonly AsyncLocal<Register.Register?> _readFrom = new();

    private int _settling;

    public LiveRegister Live => live;

    /// <summary>Lets new results answer with the last settled findings, while the full answer is worked out behind them.</summary>
    public void BeHasty()
    {
        live.Now.DriftMemory.Owed += SettleDrift;
        live.Now.DriftMemory.IsHasty = true;
    }

    // What is owed is worked out once nobody else does it; who shows it is told.
    private void SettleDrift()
    {
        if (!live.Now.DriftMemory.IsHasty || Interlocked.Exchange(ref _settling, 1) == 1) return;
        _ = Task.Run(() =>
        {
            var memory = live.Now.DriftMemory;
            var before = memory.Version;
            try
            {
                memory.Settle();
            }
            finally
            {
                Volatile.Write(ref _settling, 0);
            }
            if (memory.Version != before) Changed?.Invoke();
        });
    }

    /// <summary>A device's drift as of today; where it was answered hastily, the full answer follows by itself.</summary>
    public DeviceDrift? Drift(Register.Register register, string device)
    {
        return register.Drift(Today).Of(device);
    }

    /// <summary>The newest state, or within a read that asked for an earlier one, that one.</summary>
    public Register.Register Now => _readFrom.Value ?? live.Now;

    /// <summary>Lets all that is read on behalf of the caller, and nothing else, come from an earlier state.</summary>
    public void ReadFrom(Register.Register earlier) => _readFrom.Value = earlier;

    /// <summary>Who states facts in the register, as of now.</summary>
    public IEnumerable<PersonState> People => Now.PersonIds.Select(Now.Person).OfType<PersonState>();

    /// <summary>The day as of which is judged: the clock's, or the one that the demo was told.</summary>
    public DateOnly Today => fixedDay ?? DateOnly.FromDateTime(time.GetUtcNow().UtcDateTime);

    /// <summary>Raised when facts arrived; whoever listens coalesces.</summary>
    public event Action? Changed;

    /// <summary>The verdict on a campaign as of today, worked out once a state for all who ask.</summary>
    public ReadinessReport? Judge(Register.Register register, string campaign)
    {
        var report = _judged.GetOrCreateValue(register)
            .GetOrAdd(
                $"{campaign} {Today.DayNumber} {SiteDay(register, campaign).DayNumber} {register.DriftMemory.Version}",
                _ => CampaignReadiness.Judge(register, campaign, Today, SiteDay(register, campaign)));
        return report;
    }

    /// <summary>The day at a campaign's site, or the one that the demo was told.</summary>
    public DateOnly SiteDay(Register.Register register, string campaign) =>
        fixedDay ?? CampaignReadiness.SiteDay(register, campaign, time.GetUtcNow());

    /// <summary>The checks of a campaign, read once a state for all who ask.</summary>
    public IReadOnlyList<CheckRecord> Checks(Register.Register register, string campaign) =>
        _checked.GetOrCreateValue(register).GetOrAdd(campaign, id => CheckBook.OfCampaign(register, id));

    private readonly CurveReader _curves = ReaderFor(live);

    /// <summary>The curves of an attachment by angle of incidence, the lowest first; null where it is not here or cannot be read.</summary>
    public IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>? Curves(string sha) => _curves(sha);

    // Every state of the register finds the same curves as the desk.
    private static CurveReader ReaderFor(LiveRegister live) => live.CurveReader ??= new CurveShelf(live.Log.OpenAttachment).Read;

    /// <summary>A statement by a person, now.</summary>
    public Saying Say(string person, int? sawVersion = null, string client = "desk") =>
        new(new(Occurred.At(Moment()), PersonState.IdOf(person), client, Interlocked.Increment(ref _counter)), sawVersion);

    // Where the day was told, what is said belongs to that day; otherwise it would lie in its future and not count.
    private DateTimeOffset Moment() =>
        fixedDay is { } day
            ? new DateTimeOffset(day.ToDateTime(TimeOnly.FromTimeSpan(time.GetUtcNow().TimeOfDay)), TimeSpan.Zero)
            : time.GetUtcNow();

    /// <summary>Who may do what, as of now.</summary>
    public Access Access => access ?? Access.OpenHere;

    /// <summary>
    /// Decides on the newest state and stores what was decided, where the speaker may state facts of those kinds now, whatever held when
    /// they signed in. A person who speaks for the first time is named.
    /// </summary>
    /// <param name="speaker">Who speaks.</param>
    /// <param name="place">Through which door: desk, api.</param>
    /// <param name="decide">A pure decision.</param>
    /// <param name="cancel">Gives up before it is in the queue.</param>
    public async Task<Result<IReadOnlyList<AppendOutcome>>> Submit(
        Speaker speaker, string place, Func<Register.Register, Result<IReadOnlyList<Fact>>> decide,
        CancellationToken cancel = default)
    {
        var answer = await live.Submit(
            register =>
            {
                var decision = decide(register);
                if (decision is not Result<IReadOnlyList<Fact>>.Accepted accepted) return decision;
                if (Doorkeeper.Refusal(Access, register, speaker, accepted.Value) is { } refusal) return refusal;
                return register.Person(PersonState.IdOf(speaker.Person)) is null
                    ? new Result<IReadOnlyList<Fact>>.Accepted([.. accepted.Value, Named(speaker.Person)])
                    : decision;
            }, speaker.Door(place), cancel);
        if (answer is Result<IReadOnlyList<AppendOutcome>>.Accepted) Tell();
        return answer;
    }

    /// <summary>Says that facts arrived through another door.</summary>
    public void Tell() => Changed?.Invoke();

    /// <summary>The version in an If-Match header; null where there is none, or any will do.</summary>
    /// <returns>False where there is one that is no version: then nothing may be stored.</returns>
    public static bool TrySaw(HttpRequest request, out int? version)
    {
        version = null;
        var header = request.Headers.IfMatch.ToString();
        if (header is "" or "*") return true;
        var isVersion = header.Length > 2 && header[0] == '"' && header[^1] == '"'
            && int.TryParse(header.AsSpan(1, header.Length - 2), NumberStyles.None, CultureInfo.InvariantCulture, out _);
        if (isVersion) version = int.Parse(header.AsSpan(1, header.Length - 2), NumberStyles.None, CultureInfo.InvariantCulture);
        return isVersion;
    }

    /// <summary>Who speaks in a request.</summary>
    public static Speaker Speaker(HttpContext context) =>
        Accounts.Speaker.Of(context.User) ?? Accounts.Speaker.Here(Accounts.Speaker.Named(context.Request));

    public static string Tag(int version) => FormattableString.Invariant($"\"{version}\"");

    /// <summary>The fact that names a person who speaks for the first time.</summary>
    internal static Fact Named(string person) =>
        FactText.WriteDerived(
            new(Occurred.Unknown, PersonState.IdOf(person), "desk", 0),
            new PersonNamed(person),
            [Subject.Person(PersonState.IdOf(person))]);
}
