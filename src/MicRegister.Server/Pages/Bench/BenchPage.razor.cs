using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Imports;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Routing;
using Microsoft.JSInterop;
using MudBlazor;

namespace MicRegister.Server.Pages.Bench;

/// <summary>Results of a day's work: typed, with their files, held against what was to be expected, and stored as one act.</summary>
public sealed partial class BenchPage
{
    private readonly BenchSheet _sheet = new();
    private string? _said, _block, _back;
    private bool _isStoring, _isLeaving, _mayLeave;
    private string? _target;
    private (IReadOnlyList<FactId> Facts, IReadOnlyList<BenchLine> Lines, int Results)? _stored;

    internal BenchSheet Sheet => _sheet;

    /// <summary>Id of the device that the first line is for.</summary>
    [SupplyParameterFromQuery(Name = "device")] private string? AskedDevice { get; set; }

    [Inject] private NavigationManager Navigation { get; set; } = default!;

    [Inject] private IJSRuntime Script { get; set; } = default!;

    /// <inheritdoc />
    protected override void OnInitialized()
    {
        _sheet.Day = Desk.Today;
        // Whoever comes from a finding begins with its device.
        if (AskedDevice is { } id && Desk.Now.Device(id)?.Serial is { } serial) _sheet.Lines[0].Serial = serial;
        base.OnInitialized();
    }

    /// <inheritdoc />
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (firstRender)
        {
            await BringBack();
            if (AskedDevice is not null)
                await Script.InvokeVoidAsync("desk.enter", "value", _sheet.Lines.FindIndex(l => !l.HoldsSomething));
        }
        else await Keep();
    }

    /// <inheritdoc />
    protected override void Load() => Work();

    private void Work() => _sheet.Work(Desk, Shown);

    private void Typed()
    {
        Work();
        new BenchFiles(Desk, Shown, _sheet).Settle();
    }

    // The field may tell a day that stands there already.
    private void Date(DateOnly? day)
    {
        if (_sheet.Day == (day ?? default)) return;
        _sheet.Day = day ?? default;
        Work();
    }

    private void TypedIn(BenchLine line)
    {
        _sheet.Work(Desk, Shown, line);
        if (_sheet.Offered.Count == 0) return;
        new BenchFiles(Desk, Shown, _sheet).Settle();
        Work();
    }

    private void Remove(BenchLine line)
    {
        _sheet.Lines.Remove(line);
        Work();
    }

    private void Paste()
    {
        foreach (var problem in _sheet.Paste(_block ?? "").Take(5)) Notices.Add(problem, Severity.Error);
        _block = null;
        Typed();
    }

    // All of them or none; what files hold is on the disk before the facts that name them.
    private async Task Store()
    {
        if (_isStoring) return;
        _isStoring = true;
        try
        {
            List<BenchLine> good = [.. _sheet.Good];
            List<(string Device, DateOnly Day, CertificateIssued Issued)> certificates = [.. good.SelectMany(Certificates)];
            IReadOnlyList<Fact> facts = [];
            if (!await Submit((r, s) =>
            {
                var answer = CalibrationDecisions.IssueAll(r, s, certificates, Desk.Today);
                if (answer is Result<IReadOnlyList<Fact>>.Accepted { Value: var said }) facts = said;
                return answer;
            }))
            {
                return;
            }
            _sheet.Lines.RemoveAll(good.Contains);
            _stored = ([.. facts.Select(f => f.Id)], good, good.Count);
            _said = Words(good);
            _back = null;
            Work();
        }
        finally
        {
            _isStoring = false;
        }
    }

    private IEnumerable<(string Device, DateOnly Day, CertificateIssued Issued)> Certificates(BenchLine line)
    {
        yield return (line.Device!.Id, line.IssuedOn, line.Issued!);
        if (line.ReadCurve is not { } curve) yield break;
        var sha = Desk.Live.Log.KeepAttachment(new MemoryStream(curve.Content));
        yield return (line.Device.Id, line.IssuedOn, CurveIntake.Certificate(curve, line.CurveAbout!, sha, line.Curve!.Sha));
    }

    private static string Words(List<BenchLine> stored)
    {
        var (files, curves) = (stored.Count(l => l.Certificate is not null), stored.Count(l => l.ReadCurve is not null));
        var with = new[] { With(files, "certificate"), With(curves, "curve") }.OfType<string>().ToList();
        return (stored.Count == 1 ? "One result is stored" : $"{stored.Count} results are stored")
            + (with.Count == 0 ? "." : $", {string.Join(" and ", with)}.");

        string? With(int n, string what) => n == 0 ? null
            : stored.Count == 1 ? $"with its {what}" : $"{n} with {(n == 1 ? "its" : "their")} {what}";
    }

    // One act, as it was stored: all of it is taken back, or where somebody spoke of a part meanwhile, nothing.
    private async Task Undo()
    {
        if (_isStoring || _stored is not { } stored) return;
        _isStoring = true;
        try
        {
            const string why = "taken back at the bench right after it was stored";
            if (!await Submit((r, s) => CorrectionDecisions.AnnulAll(r, s, stored.Facts, why))) return;
            _sheet.PutBack(stored.Lines);
            _stored = null;
            _said = stored.Results == 1 ? "The result is taken back; its line is here again."
                : $"{stored.Results} results are taken back; their lines are here again.";
            Work();
        }
        finally
        {
            _isStoring = false;
        }
    }

    private string Unsaved()
    {
        var lines = _sheet.Lines.Count(l => l.HoldsSomething);
        var files = _sheet.Lines.Sum(l => l.Files.Count()) + _sheet.Waiting.Count + _sheet.Offered.Count;
        return (lines == 1 ? "One line" : $"{lines} lines") + (files == 0 ? "" : files == 1 ? " and one file" : $" and {files} files")
            + (lines == 1 && files == 0 ? " is" : " are");
    }

    private void Guard(LocationChangingContext context)
    {
        if (_mayLeave || !_sheet.IsUnsaved) return;
        context.PreventNavigation();
        (_target, _isLeaving) = (context.TargetLocation, true);
        StateHasChanged();
    }

    private async Task<bool> LeavePage()
    {
        await KeepNow();
        _mayLeave = true;
        Navigation.NavigateTo(_target!);
        return true;
    }
}
