(function () {
  'use strict';
  var data = JSON.parse(document.getElementById('page-data').textContent);
  var specs = JSON.parse(document.getElementById('page-figures').textContent);
  var faults = 0;

  function shown(chart) { return Math.max(300, chart.clientWidth - 4); }

  // Hover values of marks, as plain text beside the pointer.
  var hover = document.createElement('div');
  hover.className = 'hover hidden';
  document.body.appendChild(hover);
  function tooltip(handler, event, item, value) {
    if (value === null || value === undefined || value === '') { hover.classList.add('hidden'); return; }
    hover.textContent = value;
    hover.classList.remove('hidden');
    hover.style.left = Math.min(event.pageX + 14, window.scrollX + document.documentElement.clientWidth - hover.offsetWidth - 8) + 'px';
    hover.style.top = (event.pageY + 12) + 'px';
  }

  function draw(figure, name, values, signals, renderer) {
    var chart = figure.querySelector('.chart');
    var spec = JSON.parse(JSON.stringify(specs[name]));
    spec.data.forEach(function (set) { if (values[set.name]) { set.values = values[set.name]; } });
    (spec.signals || []).forEach(function (signal) { if (signals && signal.name in signals) { signal.value = signals[signal.name]; } });
    spec.width = shown(chart);
    chart.textContent = '';
    var view = new vega.View(vega.parse(spec), { renderer: renderer || 'svg', container: chart, hover: true, tooltip: tooltip });
    figure.ready = view.runAsync().then(function () { figure.dataset.drawn = 'yes'; return view; })
      .catch(function (fault) { faults += 1; chart.textContent = 'This figure could not be drawn: ' + fault; });
    return view;
  }

  function clock(record) {
    return record.timeline.minute.map(function (minute, i) {
      var line = record.timeline;
      return { minute: minute, current: line.current[i], current_asked: line.current_asked[i],
        air: line.ambient_air ? line.ambient_air[i] : null, speed: line.ambient_speed ? line.ambient_speed[i] : 0 };
    });
  }
  function curves(record) {
    var all = [];
    record.timeline.curves.forEach(function (curve) {
      curve.degC.forEach(function (degC, i) { all.push({ part: curve.part, minute: record.timeline.minute[i], degC: degC }); });
    });
    (record.timeline.ambient_air || []).forEach(function (degC, i) { all.push({ part: 'air', minute: record.timeline.minute[i], degC: degC }); });
    return all;
  }
  function ends(record) { return record.ends.map(function (minute) { return { minute: minute }; }); }

  function timeline(figure) {
    var record = data.records[0];
    draw(figure, 'timeline', { clock: clock(record), curves: curves(record), limits: record.limits, ends: ends(record) },
      { last: record.timeline.minute[record.timeline.minute.length - 1],
        breeze: (record.timeline.ambient_speed || []).some(function (speed) { return speed > 0; }) });
  }
  function strip(figure) {
    var record = data.records[0], map = record.strip, cells = [], m = map.position_m, t = map.minute;
    var length = record.pieces[record.pieces.length - 1].end;
    var last = record.timeline.minute[record.timeline.minute.length - 1];
    map.degC.forEach(function (line, i) {
      line.forEach(function (degC, j) {
        if (degC === null) { return; }
        cells.push({ degC: degC, from: t[i], to: i + 1 < t.length ? t[i + 1] : last,
          begin: j ? (m[j - 1] + m[j]) / 2 : 0, end: j + 1 < m.length ? (m[j] + m[j + 1]) / 2 : length });
      });
    });
    draw(figure, 'strip', { cells: cells, pieces: record.pieces, ends: ends(record) }, {}, 'canvas');
  }
  function along(figure) {
    var record = data.records[0], points = [];
    record.along.steps.forEach(function (step) {
      ['conductor', 'surface'].forEach(function (of) {
        (step[of] || []).forEach(function (degC, j) { points.push({ step: step.step, of: of, m: record.along.position_m[j], degC: degC }); });
      });
    });
    draw(figure, 'along', { points: points, pieces: record.pieces }, { last: record.pieces[record.pieces.length - 1].end });
  }
  function overlay(figure) {
    var all = [];
    data.records.forEach(function (record) {
      record.timeline.curves.forEach(function (curve) {
        if (curve.part !== 'conductor') { return; }
        curve.degC.forEach(function (degC, i) { all.push({ record: record.name, minute: record.timeline.minute[i], degC: degC }); });
      });
    });
    draw(figure, 'overlay', { curves: all, ends: ends(data.records[0]) });
  }
  function envelope(figure) {
    var held = data.records[0].envelope, reach = held.reach;
    var ticks = [0.02, 0.05, 0.1, 0.2, 0.5, 0.7, 1, 1.5, 2, 3, 5, 7, 10, 20, 50].filter(function (v) { return v >= reach[2] && v <= reach[3]; });
    draw(figure, 'envelope', { openings: held.openings, paths: held.paths, crossings: held.crossings, latest: held.latest ? [held.latest] : [] },
      { reach: reach, hold: held.must_hold, ticks: ticks });
  }
  function section(figure) {
    var windows = data.records[0].sections;
    var choose = figure.querySelector('select'), slide = figure.querySelector('input'), told = figure.querySelector('output');
    var view = null;
    function tell(window, k) { told.textContent = 'minute ' + window.minute[k]; }
    function show() {
      var window = windows[choose.selectedIndex], cells = [], least = Infinity, most = -Infinity;
      window.degC.forEach(function (line) { line.forEach(function (v) { least = Math.min(least, v); most = Math.max(most, v); }); });
      for (var c = 0; c < window.begin_mm.length; c += 1) {
        cells.push({ begin: window.begin_mm[c], end: window.end_mm[c], inner: window.inner_mm[c], outer: window.outer_mm[c],
          material: window.materials[window.material[c]], all: window.degC.map(function (line) { return line[c]; }), least: least, most: most });
      }
      slide.max = window.minute.length - 1;
      if (!slide.dataset.moved) { slide.value = slide.max; }
      tell(window, +slide.value);
      view = draw(figure, 'section', { cells: cells }, { moment: +slide.value }, 'canvas');
    }
    slide.addEventListener('input', function () {
      slide.dataset.moved = 'yes';
      view.signal('moment', +slide.value).runAsync();
      tell(windows[choose.selectedIndex], +slide.value);
    });
    choose.addEventListener('change', show);
    show();
  }

  function budget(figure) { draw(figure, 'budget', { flows: data.records[0].budget }); }

  var kinds = { timeline: timeline, strip: strip, along: along, overlay: overlay, envelope: envelope, section: section, budget: budget };
  function all() {
    document.querySelectorAll('figure[data-kind]').forEach(function (figure) { kinds[figure.dataset.kind](figure); });
  }

  // Guesses first, results after.
  var guess = document.getElementById('guess');
  if (guess) {
    var results = document.getElementById('results');
    guess.addEventListener('submit', function (event) {
      event.preventDefault();
      var fields = Array.prototype.slice.call(guess.querySelectorAll('input[data-answer]'));
      if (fields.some(function (field) { return field.value.trim() === '' || isNaN(+field.value); })) {
        document.getElementById('guess-told').textContent = 'Type a number for every line first.';
        return;
      }
      var sum = 0;
      fields.forEach(function (field) {
        var off = +field.value - +field.dataset.answer;
        sum += Math.abs(off);
        field.nextElementSibling.textContent = ' the model gives ' + field.dataset.answer + ' ' + field.dataset.unit + ', you were ' + (off > 0 ? '+' : '') + off.toFixed(1);
      });
      document.getElementById('guess-told').textContent = 'On average you were off by ' + (sum / fields.length).toFixed(1) + '.';
      results.classList.remove('hidden');
      all();
    });
  } else {
    all();
  }

  var late = null;
  window.addEventListener('resize', function () {
    clearTimeout(late);
    late = setTimeout(function () { if (!document.querySelector('#results.hidden')) { all(); } }, 200);
  });
  window.pageFaults = function () { return faults; };
}());
