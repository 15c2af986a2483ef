using MicRegister.Server.Pages.Parts;
using MudBlazor;

namespace MicRegister.Server.Pages.Bench;

/// <summary>What is not stored yet is kept by the browser's tab: it outlives a reload, a lost connection and a server that began
/// anew.</summary>
public sealed partial class BenchPage
{
    private static readonly TimeSpan Between = TimeSpan.FromMilliseconds(400);

    private bool _isBack, _cannotKeep, _isDue;
    private string? _kept;
    private long _keptAt;
    private ITimer? _later;

    private string Name => "bench:" + Person;

    // Before that nothing is kept: it would take the place of what was kept before.
    private async Task BringBack()
    {
        var text = await TabDraft.Of(Script, Name);
        _isBack = true;
        if (BenchDraft.Read(text) is not { } draft)
        {
            if (!string.IsNullOrEmpty(text))
                Notices.Add("What this tab kept of a sheet that was not stored cannot be read any more.", Severity.Warning);
            return;
        }
        draft.PutInto(_sheet);
        Work();
        draft.Insist(_sheet);
        _kept = text;
        _back = $"{Unsaved()} here again that this tab kept, and not stored yet.";
        StateHasChanged();
    }

    private void ThrowAway()
    {
        _sheet.Lines.Clear();
        _sheet.Waiting.Clear();
        _sheet.Offered.Clear();
        _back = null;
        Work();
    }

    // Each letter is a drawing: what is kept follows at once, and then at most so often.
    private async Task Keep()
    {
        if (!_isBack) return;
        if (_keptAt != 0 && Time.GetElapsedTime(_keptAt) < Between)
        {
            if (_isDue) return;
            _isDue = true;
            _later ??= Time.CreateTimer(_ => _ = InvokeAsync(KeepNow), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
            _later.Change(Between, Timeout.InfiniteTimeSpan);
            return;
        }
        await KeepNow();
    }

    private async Task KeepNow()
    {
        _isDue = false;
        _keptAt = Time.GetTimestamp();
        var text = BenchDraft.Of(_sheet);
        if (text == _kept || !_isBack) return;
        _kept = text;
        var isKept = await TabDraft.Keep(Script, Name, text);
        if (isKept == !_cannotKeep) return;
        _cannotKeep = !isKept;
        StateHasChanged();
    }

    /// <inheritdoc />
    protected override void Leave()
    {
        _isBack = false;
        _later?.Dispose();
    }
}
