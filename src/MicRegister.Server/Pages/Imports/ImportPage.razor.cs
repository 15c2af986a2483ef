using MicRegister.Documents.Import;
using MicRegister.Register.Facts;
using MicRegister.Server.Imports;
using MicRegister.Server.Setup;
using Microsoft.AspNetCore.Components.Forms;
using MudBlazor;

namespace MicRegister.Server.Pages.Imports;

/// <summary>Files are dropped, understood, asked about, shown row by row and then stored, as they were shown.</summary>
public sealed partial class ImportPage
{
    private const int MostFiles = 20;
    private const int MostBytes = 64 << 20;
    private const int MostTurns = 5;

    private static readonly TimeSpan Told = TimeSpan.FromMilliseconds(200);

    private readonly ImportDraft _draft = new();
    private readonly Dictionary<string, KeptLegend?> _offers = new(StringComparer.Ordinal);
    private IReadOnlyList<FileReport> _reports = [];
    private CancellationTokenSource? _cancel;
    private Importing? _plan;
    private ImportWork? _work;
    private bool _isChanged;
    private int? _stored;

    private bool IsBusy => _work is not null;

    private async Task Read(IReadOnlyList<IBrowserFile>? files)
    {
        if (files is not { Count: > 0 }) return;
        if (files.Count > MostFiles)
        {
            Notices.Add($"{files.Count} files were dropped; at most {MostFiles} are taken at once.", Severity.Error);
            return;
        }
        foreach (var file in files.OrderBy(f => f.Name, StringComparer.Ordinal))
        {
            if (file.Size > MostBytes)
            {
                Notices.Add($"{file.Name} has {file.Size} bytes; at most {MostBytes} are taken here.", Severity.Error);
                continue;
            }
            using var content = new MemoryStream();
            try
            {
                await using var stream = file.OpenReadStream(MostBytes);
                await stream.CopyToAsync(content);
            }
            catch (IOException problem)
            {
                Notices.Add($"{file.Name} could not be read: {problem.Message}", Severity.Error);
                continue;
            }
            _draft.Add(file.Name, content.ToArray());
        }
        await WorkOut();
    }

    private Task Remove(string name) => Say(name, d =>
    {
        if (name.EndsWith(ImportDraft.LegendEnd, StringComparison.Ordinal)) d.RemoveLegend(name);
        else d.Remove(name);
    });

    private Task Mean(string file, (UnderstoodColumn Column, string Meaning) said) =>
        Say(file, d => d.Say(file, said.Column.RuleOf(said.Meaning)));

    private Task Use(string file, KeptLegend? kept) => Say(file, d =>
    {
        if (kept is null) d.UseNoMore(file);
        else d.Use(file, kept);
    });

    // Whatever is said of a file, all is worked out anew: what one file says, the next one meets.
    private Task Say(string file, Action<ImportDraft> say)
    {
        if (IsBusy) return Task.CompletedTask;
        say(_draft);
        return WorkOut();
    }

    private async Task WorkOut()
    {
        (_stored, _isChanged) = (null, false);
        if (_draft.Files.Count == 0)
        {
            Show(null);
            return;
        }
        var plan = await Worked();
        Show(plan);
        // What was worked out before is not what was asked for now.
        if (plan is null) Notices.Add("Stopped; nothing was stored.", Severity.Info);
    }

    private void Show(Importing? plan)
    {
        _plan = plan;
        _reports = plan?.Reports ?? [];
        _offers.Clear();
        foreach (var file in _draft.Files) _offers[file.Name] = _draft.Offer(Desk.Now, file.Name);
    }

    // Away from the circuit, so that a large file does not hold the page.
    private async Task<Importing?> Worked()
    {
        using var cancel = _cancel = new CancellationTokenSource();
        var begun = Time.GetTimestamp();
        var told = begun;
        _work = new(false, default, TimeSpan.Zero);
        StateHasChanged();
        var progress = new Progress<ImportProgress>(p =>
        {
            if (!IsBusy || Time.GetElapsedTime(told) < Told) return;
            told = Time.GetTimestamp();
            _work = new(false, p, Time.GetElapsedTime(begun));
            _ = InvokeAsync(StateHasChanged);
        });
        try
        {
            var work = _draft.Working(Desk.Now, Desk.Today, Importing.RecordedIn(Desk.Live.Log), progress, cancel.Token);
            return await Task.Run(work, cancel.Token);
        }
        catch (OperationCanceledException)
        {
            return null;
        }
        finally
        {
            (_work, _cancel) = (null, null);
        }
    }

    private void Stop() => _cancel?.Cancel();

    private Task Forget()
    {
        _draft.Clear();
        return WorkOut();
    }

    // Only what was shown is stored: where the register changed meanwhile, it is worked out anew and has to be the same.
    private async Task Store()
    {
        if (IsBusy || _plan is not { } plan) return;
        _isChanged = false;
        try
        {
            for (var turn = 0; turn < MostTurns; turn++)
            {
                _work = new(true, new(plan.Reports.Sum(r => r.Rows), 0), TimeSpan.Zero);
                StateHasChanged();
                var stored = await plan.StoreAsWorkedOut(Desk.Live, Desk.Access, Speaker, Time, default);
                _work = null;
                if (stored is not null)
                {
                    Done(stored.Value);
                    return;
                }
                var shown = await Task.Run(() => plan.Digest);
                if (await Worked() is not { } anew)
                {
                    Notices.Add("Stopped; nothing was stored.", Severity.Info);
                    return;
                }
                plan = anew;
                if (await Task.Run(() => plan.Digest) == shown) continue;
                Show(plan);
                _isChanged = true;
                return;
            }
            Notices.Add("Nothing was stored: others change the register faster than the files are worked out. Try again.", Severity.Error);
        }
        catch (Exception e) when (e is StoreException or BadUseException)
        {
            Notices.Add(e.Message, Severity.Error);
        }
        finally
        {
            _work = null;
        }
    }

    private void Done(int stored)
    {
        _draft.Clear();
        Show(null);
        _stored = stored;
        Desk.Tell();
    }

    /// <inheritdoc />
    protected override void Leave() => _cancel?.Cancel();
}
