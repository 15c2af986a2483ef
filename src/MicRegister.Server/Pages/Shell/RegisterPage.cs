using MicRegister.Register;
using MicRegister.Register.Facts;
using MicRegister.Server.Accounts;
using MicRegister.Server.Work;
using Microsoft.AspNetCore.Components;
using MudBlazor;

namespace MicRegister.Server.Pages.Shell;

/// <summary>
/// A page that shows the register and lets go when it is left. It follows a new fact within a quarter of a second; where facts pour
/// in, it follows less and less often, every two seconds at last, so that many open pages do not slow those who speak.
/// </summary>
public abstract partial class RegisterPage : ComponentBase, IDisposable
{
    private static readonly TimeSpan LeastPause = TimeSpan.FromMilliseconds(250);
    private static readonly TimeSpan GreatestPause = TimeSpan.FromSeconds(2);

    /// <summary>Pages draw by turns, so that those who speak always find a core.</summary>
    private static readonly SemaphoreSlim Turns = new(Math.Max(1, Environment.ProcessorCount / 2));

    private TimeSpan _pause = LeastPause;
    private long _followed;
    private ITimer? _timer;
    private int _waiting;
    private bool _left;

    [Inject] protected Desk Desk { get; set; } = default!;

    [Inject] protected TimeProvider Time { get; set; } = default!;

    [Inject] protected ISnackbar Notices { get; set; } = default!;

    [Inject] private Screen Screen { get; set; } = default!;

    [Inject] private IHttpContextAccessor Http { get; set; } = default!;

    /// <summary>The state this page shows; it changes only between two renderings.</summary>
    protected Register.Register Shown { get; private set; } = default!;

    [Inject] private Speaking Speaking { get; set; } = default!;

    /// <summary>Who sits before this page; nobody with any duty where the sign-in is over.</summary>
    protected Speaker Speaker => Speaking.Now ?? Nobody;

    /// <summary>Name of the person before this page.</summary>
    protected string Person => Speaker.Person;

    /// <summary>Whether one of these duties is held now.</summary>
    protected bool May(Duties duties) => Desk.Access.Now(Speaker).Meets(duties);

    private static Speaker Nobody { get; } = new(Accounts.Speaker.Account, "", "", Duties.None, null, -1);

    protected override void OnInitialized()
    {
        Shown = Desk.Now;
        _timer = Time.CreateTimer(_ => FollowFacts(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        Desk.Changed += Notice;
        Load();
    }

    /// <summary>Works out from <see cref="Shown"/> what the page draws.</summary>
    protected virtual void Load()
    {
        // A form shows what is typed, not the register.
    }

    /// <summary>What others said of the subject since it was seen, while a form waits; null where nothing stands between.</summary>
    protected Clash? Clash { get; private set; }

    private (string Subject, int Version)? _seen;

    private Snackbar? _refusal;
    private IReadOnlyList<FactId> _said = [];

    /// <summary>Notes which version of a subject is on the screen, when a person begins to type about it.</summary>
    protected void See(string subject)
    {
        if (_seen?.Subject != subject) _seen = (subject, Screen.Newest(Shown).Version(subject));
    }

    /// <summary>Notes that what was typed about a subject, and kept since, was typed before that version of it.</summary>
    protected void SeeAsOf(string subject, int version) => _seen = (subject, version);

    /// <summary>The version of the subject that is being typed about; null where nothing is.</summary>
    protected int? SeenVersion => _seen?.Version;

    /// <summary>Forgets what was on the screen: a person begins anew.</summary>
    protected void SeeAnew() => (_seen, Clash) = (null, null);

    /// <summary>Decides on the newest state; says on the screen why not, where it was not accepted.</summary>
    protected Task<bool> Submit(Func<Register.Register, Saying, Result<IReadOnlyList<Fact>>> decide) => Submit(decide, null);

    /// <summary>
    /// The same, unless others said something about the subject since <see cref="See"/>: then what they said is shown beside
    /// what was typed, and saying it again says it all the same.
    /// </summary>
    protected async Task<bool> SubmitAbout(string subject, Func<Register.Register, Saying, Result<IReadOnlyList<Fact>>> decide)
    {
        See(subject);
        var seen = _seen!.Value.Version;
        if (!await Submit(decide, seen)) return false;
        SeeAnew();
        return true;
    }

    private async Task<bool> Submit(Func<Register.Register, Saying, Result<IReadOnlyList<Fact>>> decide, int? saw)
    {
        var saying = Desk.Say(Person, saw) with { SawSubject = _seen?.Subject };
        IReadOnlyList<FactId> said = [];
        Result<IReadOnlyList<AppendOutcome>> answer;
        try
        {
            answer = await Desk.Submit(Speaker, "desk", register =>
            {
                var decided = decide(register, saying);
                if (decided is Result<IReadOnlyList<Fact>>.Accepted { Value: var facts }) said = [.. facts.Select(f => f.Id)];
                return decided;
            });
        }
        catch (Exception e) when (e is StoreException or FormatException)
        {
            Refuse(e.Message);
            return false;
        }
        if (answer is Result<IReadOnlyList<AppendOutcome>>.Rejected rejected)
        {
            if (saw is { } version && _seen is { } seen && Desk.Now.Version(seen.Subject) != version) Meet(seen.Subject, version);
            else Refuse(rejected.Why.Text);
            return false;
        }
        _said = said;
        // What was refused has been put right: it is no news any more.
        if (_refusal is { } refusal) Notices.Remove(refusal);
        _refusal = null;
        Refresh();
        return true;
    }

    /// <summary>Says why something was not done.</summary>
    protected virtual void Refuse(string why) => _refusal = Notices.Add(why, Severity.Error);

    /// <summary>Says what was stored last, and offers to take it back; the journal takes it back later.</summary>
    /// <param name="words">What was stored.</param>
    protected void SayStored(string words)
    {
        var said = _said;
        Notices.Add(words, Severity.Success, notice =>
        {
            notice.Action = "Undo";
            notice.OnClick = _ => InvokeAsync(() => TakeBack(said));
        });
    }

    private async Task TakeBack(IReadOnlyList<FactId> facts)
    {
        if (await Submit((r, s) => CorrectionDecisions.AnnulAll(r, s, facts, "taken back"))) SayStored("Taken back.");
    }

    private void Meet(string subject, int saw)
    {
        Shown = Desk.Now;
        Clash = Clash.Of(Shown, subject, saw);
        _seen = (subject, Shown.Version(subject));
        Load();
        StateHasChanged();
    }

    /// <summary>Reads a number as people write it; an empty text is none.</summary>
    /// <returns>False where it is no number: said on the screen, with the field's name.</returns>
    protected bool TryNumber(string? text, string name, out double? value)
    {
        value = null;
        if (string.IsNullOrWhiteSpace(text)) return true;
        if (Documents.Import.MeasuredText.TryRead(text, out var number, out _))
        {
            value = number;
            return true;
        }
        Refuse($"{name} '{text}': it is no number.");
        return false;
    }

    /// <summary>What a field shows when what stands in the register changed: what was typed, or the new value where nothing was.</summary>
    /// <param name="typed">What the field holds.</param>
    /// <param name="was">What stood in the register when the field was filled.</param>
    /// <param name="now">What stands there now.</param>
    protected static T Follow<T>(T typed, T was, T now) => EqualityComparer<T>.Default.Equals(typed, was) ? now : typed;

    /// <summary>A text without outer blanks; null where there is none.</summary>
    protected static string? Blank(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    /// <summary>Answers with 404 where what the address names is not here, as long as nothing was sent yet.</summary>
    protected void SayMissing()
    {
        if (Http.HttpContext is not { Response.HasStarted: false } context) return;
        // At the last moment: a page whose status is 404 before is taken for none, and its words are thrown away.
        context.Response.OnStarting(() =>
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            return Task.CompletedTask;
        });
    }

    protected void Refresh()
    {
        Shown = Screen.Newest(Desk.Now);
        Load();
        StateHasChanged();
    }

    /// <summary>Lets go of what a page follows beside the register.</summary>
    protected virtual void Leave()
    {
        // Most follow nothing else.
    }

    public void Dispose()
    {
        _left = true;
        Desk.Changed -= Notice;
        _timer?.Dispose();
        Leave();
        GC.SuppressFinalize(this);
    }

    private void Notice()
    {
        if (Interlocked.Exchange(ref _waiting, 1) != 0 || _left) return;
        _pause = Time.GetElapsedTime(Interlocked.Read(ref _followed)) < LeastPause
            ? TimeSpan.FromTicks(Math.Min(_pause.Ticks * 2, GreatestPause.Ticks))
            : LeastPause;
        _timer?.Change(_pause, Timeout.InfiniteTimeSpan);
    }

    private void FollowFacts()
    {
        Interlocked.Exchange(ref _followed, Time.GetTimestamp());
        Interlocked.Exchange(ref _waiting, 0);
        if (!_left) _ = FollowInTurn();
    }

    private async Task FollowInTurn()
    {
        await Turns.WaitAsync();
        try
        {
            await InvokeAsync(() =>
            {
                if (!_left) Refresh();
            });
        }
        catch (ObjectDisposedException)
        {
            // The register was closed under the page: there is nothing left to follow.
        }
        catch (Exception e)
        {
            // A page that cannot follow must say so, not stand there stale.
            if (!_left) await DispatchExceptionAsync(e);
        }
        finally
        {
            Turns.Release();
        }
    }
}
