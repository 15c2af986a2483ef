namespace MicRegister.Server.Pages.Shell;

/// <content>What takes longer than a moment.</content>
public abstract partial class RegisterPage
{
    /// <summary>How long a page may stand without a word.</summary>
    private static readonly TimeSpan Moment = TimeSpan.FromMilliseconds(300);

    private int _works, _shownWork;

    /// <summary>What the page is waiting for, in words; null where all that it shows is worked out.</summary>
    protected string? Waiting { get; private set; }

    /// <summary>
    /// Works something out beside the page. What takes longer than a moment follows when it is there; meanwhile the page stands, shows
    /// what it showed and says what it waits for. What was begun later stands for what was begun before.
    /// </summary>
    /// <param name="words">What is worked out, with how much of it: "the drift of 10,000 devices".</param>
    /// <param name="work">The work; it reads and changes nothing.</param>
    /// <param name="show">Takes what came of it.</param>
    protected void WorkOut<T>(string words, Func<T> work, Action<T> show)
    {
        var mine = ++_works;
        var running = Task.Run(work);
        using var moment = new CancellationTokenSource(Moment, Time);
        try
        {
            running.Wait(moment.Token);
        }
        catch (Exception e) when (e is OperationCanceledException or AggregateException)
        {
            // The moment is over, or the work went wrong: that is thrown below, as if the page itself had worked.
        }
        if (!running.IsCompleted)
        {
            Waiting = words;
            _ = Follow(running, mine, show);
            return;
        }
        (Waiting, _shownWork) = (null, mine);
        show(running.GetAwaiter().GetResult());
    }

    private async Task Follow<T>(Task<T> running, int mine, Action<T> show)
    {
        try
        {
            var made = await running.ConfigureAwait(false);
            await InvokeAsync(() =>
            {
                // Facts may pour in faster than this is worked out: what is newer than what stands there is shown all the same.
                if (_left || mine < _shownWork) return;
                if (mine == _works) Waiting = null;
                _shownWork = mine;
                show(made);
                StateHasChanged();
            });
        }
        catch (ObjectDisposedException)
        {
            // The page was left meanwhile.
        }
        catch (Exception e)
        {
            if (!_left) await DispatchExceptionAsync(e);
        }
    }
}
