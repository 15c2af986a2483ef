using MicRegister.Register;
using MicRegister.Server.Accounts;
using Microsoft.AspNetCore.Components.Forms;
using Microsoft.JSInterop;
using MudBlazor;

namespace MicRegister.Server.Pages.Bench;

/// <summary>Files that are dropped on the sheet or on a line: kept as attachments at once, so that no lost connection loses one.</summary>
public sealed partial class BenchPage
{
    private const int MostFiles = 200;

    private (int Done, int Total)? _reading;
    private bool _stop;

    private bool IsReading => _reading is not null;

    private Task TakeFiles(IReadOnlyList<IBrowserFile> files) => TakeFiles(files, null);

    private async Task TakeFiles(IReadOnlyList<IBrowserFile> files, BenchLine? line)
    {
        if (files.Count == 0 || IsReading) return;
        if (!May(DutyTable.Endpoints["POST /api/attachments"]))
        {
            Notices.Add("To attach something needs one of the duties field, bench, plan.", Severity.Error);
            return;
        }
        if (files.Count > MostFiles)
        {
            Notices.Add($"{files.Count} files were dropped; at most {MostFiles} are taken at once. None was taken.", Severity.Error);
            return;
        }
        _stop = false;
        var (placing, taken) = (new BenchFiles(Desk, Shown, _sheet), 0);
        try
        {
            foreach (var (file, i) in files.OrderBy(f => f.Name, StringComparer.Ordinal).Select((f, i) => (f, i)))
            {
                _reading = (i, files.Count);
                StateHasChanged();
                if (_stop) break;
                if (await Kept(file) is not { } one) continue;
                taken++;
                Place(placing, one, line);
            }
            if (_stop) Notices.Add($"Stopped: {taken} of {files.Count} files were taken.", Severity.Info);
        }
        finally
        {
            _reading = null;
            Typed();
        }
    }

    // Whatever was typed or taken out while files were read.
    private void Place(BenchFiles placing, BenchFile file, BenchLine? line)
    {
        if (line is null || !_sheet.Lines.Contains(line))
        {
            placing.Place(file);
            return;
        }
        placing.PlaceOn(line, file);
        _sheet.Work(Desk, Shown, line);
    }

    private async Task<BenchFile?> Kept(IBrowserFile file)
    {
        if (file.Size > IFactLog.MaxAttachmentBytes)
        {
            Notices.Add($"{file.Name} has {file.Size} bytes; at most {IFactLog.MaxAttachmentBytes >> 20} MB are taken.", Severity.Error);
            return null;
        }
        try
        {
            using var content = new MemoryStream();
            await using (var stream = file.OpenReadStream(IFactLog.MaxAttachmentBytes)) await stream.CopyToAsync(content);
            var sort = BenchFile.SortOf(file.Name, content.GetBuffer().AsSpan(0, (int)content.Length));
            content.Position = 0;
            return new(file.Name, content.Length, Desk.Live.Log.KeepAttachment(content), sort);
        }
        catch (Exception e) when (e is FormatException or IOException or JSException)
        {
            Notices.Add(e is not FormatException ? $"{file.Name} could not be read: {e.Message}" : e.Message, Severity.Error);
            return null;
        }
    }

    private void OpenLines()
    {
        new BenchFiles(Desk, Shown, _sheet).OpenLines();
        Work();
    }

    private void OpenLineOf((string Device, BenchFile File) of)
    {
        _sheet.Offered.Add(of);
        OpenLines();
    }

    private void Placed(BenchLine? line) => Work();
}
