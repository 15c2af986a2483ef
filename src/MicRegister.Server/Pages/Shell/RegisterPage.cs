using MicRegister.Register;
using MicRegister.Register.Facts;
using MicRegister.Server.Api;
using Microsoft.AspNetCore.Components;
using MudBlazor;

namespace MicRegister.Server.Pages.Shell;

/// <summary>A page that shows the register: it follows new facts at most four times a second, and lets go when it is left.</summary>
public abstract class RegisterPage : ComponentBase, IDisposable
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(250);
    private ITimer? _timer;
    private int _waiting;
    private bool _left;

    [Inject] protected Desk Desk { get; set; } = default!;

    [Inject] protected TimeProvider Time { get; set; } = default!;

    [Inject] protected ISnackbar Notices { get; set; } = default!;

    /// <summary>The state this page shows; it changes only between two renderings.</summary>
    protected Register.Register Shown { get; private set; } = default!;

    /// <summary>Name of the person at this desk, until there is a sign-in.</summary>
    protected static string Person => "Desk";

    protected override void OnInitialized()
    {
        Shown = Desk.Now;
        _timer = Time.CreateTimer(_ => Follow(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        Desk.Changed += Notice;
        Load();
    }

    /// <summary>Works out from <see cref="Shown"/> what the page draws.</summary>
    protected abstract void Load();

    /// <summary>Decides on the newest state; says on the screen why not, where it was not accepted.</summary>
    protected async Task<bool> Submit(Func<Register.Register, Saying, Result<IReadOnlyList<Fact>>> decide, int? saw = null)
    {
        var saying = Desk.Say(Person, saw);
        Result<IReadOnlyList<AppendOutcome>> answer;
        try
        {
            answer = await Desk.Submit(Person, register => decide(register, saying));
        }
        catch (Exception e) when (e is StoreException or FormatException)
        {
            Notices.Add(e.Message, Severity.Error);
            return false;
        }
        if (answer is Result<IReadOnlyList<AppendOutcome>>.Rejected rejected)
        {
            Notices.Add(rejected.Why.Text, Severity.Error);
            return false;
        }
        Refresh();
        return true;
    }

    protected void Refresh()
    {
        Shown = Desk.Now;
        Load();
        StateHasChanged();
    }

    public void Dispose()
    {
        _left = true;
        Desk.Changed -= Notice;
        _timer?.Dispose();
        GC.SuppressFinalize(this);
    }

    private void Notice()
    {
        if (Interlocked.Exchange(ref _waiting, 1) == 0 && !_left) _timer?.Change(Pause, Timeout.InfiniteTimeSpan);
    }

    private void Follow()
    {
        Interlocked.Exchange(ref _waiting, 0);
        if (!_left) _ = InvokeAsync(async () =>
        {
            try
            {
                if (!_left) Refresh();
            }
            catch (Exception e)
            {
                // A page that cannot follow must say so, not stand there stale.
                await DispatchExceptionAsync(e);
            }
        });
    }
}
