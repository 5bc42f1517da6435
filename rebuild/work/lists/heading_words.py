"""What people head their columns with, in eight languages, the surest word first (common practice, no source).

English, German, French, Spanish, Italian, Dutch, Japanese, Chinese. A heading is compared by ``plain``: without
case, accents, signs and spaces.
"""

from __future__ import annotations

import re
import unicodedata


def plain(words: str) -> str:
    """A heading without case, accents, signs and spaces.

    >>> plain("Reading, as typed"), plain("Qté."), plain("数 量")
    ('readingastyped', 'qte', '数量')
    """
    return "".join(tokens(words))


def tokens(words: str) -> list[str]:
    """The words of a heading.

    >>> tokens("# needed (pcs.)"), tokens("Unité [m]")
    (['needed', 'pcs'], ['unite', 'm'])
    """
    bare = unicodedata.normalize("NFKD", words.casefold())
    bare = "".join(letter for letter in bare if not unicodedata.combining(letter))
    return re.findall(r"[^\W_]+|°c", bare)


#: Words for the columns of a part list.
PART_WORDS: dict[str, tuple[str, ...]] = {
    "name": (
        "part name", "name", "item name", "product name", "component name", "Teilename", "Teilebezeichnung",
        "Bezeichnung", "Benennung", "désignation", "dénomination", "libellé", "nom", "nom de la pièce",
        "denominación",
        "nombre", "nombre de la pieza", "denominazione", "nome", "benaming", "naam", "onderdeelnaam", "部品名",
        "部品名称",
        "品名", "名称", "零件名称", "部件名称", "物料名称", "description", "part description", "Beschreibung",
        "descripción", "descrizione", "omschrijving", "beschrijving", "component", "Komponente", "composant",
        "componente", "designation", "designación", "designazione", "part", "Teil", "pièce", "pieza", "pezzo",
        "particolare", "onderdeel", "article", "Artikel", "artículo", "articolo", "artikel", "item",
        "Gegenstand", "品目",
        "specification", "value", "device", "title", "what",
    ),
    "quantity": (
        "quantity", "qty", "quant", "number off", "no off", "off", "count", "pcs", "pieces", "needed", "required",
        "qty required", "number needed", "Menge", "Anzahl", "Stückzahl", "Stück", "Stk", "quantité", "qté",
        "nombre", "nb",
        "cantidad", "cant", "uds", "unidades", "quantità", "q.tà", "qtà", "pezzi", "numero pezzi", "aantal",
        "hoeveelheid", "stuks", "数量", "個数", "員数", "件数", "数",
    ),
    "quantity_unit": (
        "unit", "units", "uom", "unit of measure", "Einheit", "Mengeneinheit", "ME", "unité", "unidad",
        "unità", "u.m.",
        "eenheid", "単位", "单位",
    ),
    "code": (
        "code", "tag", "part code", "part no", "part number", "part #", "part id", "number", "item code",
        "Teilenummer",
        "Teile-Nr", "Teilenr", "Sachnummer", "Zeichnungsnummer", "Zeichnungs-Nr", "Artikelnummer", "Artikel-Nr",
        "Ident-Nr", "référence", "réf", "repère", "numéro de pièce", "n° de pièce", "código", "referencia", "ref",
        "número de pieza", "nº de pieza", "codice", "riferimento", "rif", "numero parte", "onderdeelnummer",
        "partnummer",
        "artikelnummer", "onderdeelnr", "部品番号", "品番", "図番", "図面番号", "代号", "图号", "零件号",
        "零件编号", "件号",
        "料号", "编号", "reference", "designator", "mark", "drawing", "drawing number",
    ),
    "maker_number": (
        "manufacturer part number", "manufacturer part no", "manufacturer part", "manufacturer pn", "mfr part number",
        "mpn", "catalogue number", "catalog number", "catalog part number", "oem number", "order code",
        "order number",
        "supplier part", "supplier part number", "Bestellnummer", "Bestell-Nr", "Herstellernummer", "Hersteller-Nr",
        "référence fabricant", "réf fabricant", "referencia del fabricante", "codice produttore", "codice fornitore",
        "bestelnummer", "fabrikantnummer", "型番", "型式", "型号", "规格型号", "メーカー型番",
    ),
    "material": (
        "material", "mat", "Werkstoff", "matière", "matériau", "materiale", "materiaal", "材質", "材料", "材质",
    ),
    "note": (
        "note", "notes", "remark", "remarks", "comment", "comments", "Bemerkung", "Bemerkungen", "Anmerkung",
        "Hinweis",
        "Kommentar", "remarque", "remarques", "observation", "observations", "commentaire", "notas", "nota",
        "observaciones", "comentarios", "osservazioni", "commenti", "opmerking", "opmerkingen", "備考", "注記",
        "备注", "注释",
        "说明",
    ),
    "condition": (
        "condition", "state", "status", "as found", "Zustand", "état", "estado", "stato", "condizione", "toestand",
        "staat", "状態", "状态",
    ),
    "group_name": (
        "subassembly", "sub assembly", "assembly", "group", "subsystem", "section", "module", "category", "Baugruppe",
        "Gruppe", "Unterbaugruppe", "sous-ensemble", "ensemble", "groupe", "subconjunto", "conjunto", "grupo",
        "sottogruppo", "assieme", "gruppo", "samenstelling", "groep", "組立", "組図", "ユニット", "部位",
        "组件", "部件",
        "装配", "总成",
    ),
    "group_code": ("group code", "assembly code", "assembly no"),
    "place_name": (
        "location", "bin", "where", "storage", "place", "Lagerort", "Lagerplatz", "Ort", "Fach", "emplacement",
        "lieu",
        "ubicación", "lugar", "ubicazione", "luogo", "locatie", "plaats", "保管場所", "場所", "位置", "库位",
        "存放位置",
    ),
    "figure_item": (
        "figure and item", "figure item", "figure", "fig", "sheet and item", "Bild", "Abb", "figura", "figuur",
        "照合番号",
        "item no", "item number", "pos", "position", "Pos.-Nr", "index", "id", "no", "nr", "n°", "lfd nr",
        "序号", "番号",
    ),
    "set_name": ("set", "matched set"),
}  # fmt: skip

#: Words for the columns of a table of readings; a measuring machine's report is one.
READING_WORDS: dict[str, tuple[str, ...]] = {
    "feature_name": (
        "feature", "characteristic", "dimension", "measured", "what", "Merkmal", "Prüfmerkmal", "Maß",
        "caractéristique",
        "cote", "característica", "cota", "caratteristica", "quota", "kenmerk", "maat", "測定項目", "測定箇所",
        "項目",
        "特征", "测量项目", "项目", "尺寸", "element", "feature name", "dimension name",
    ),
    "typed": (
        "reading", "actual", "actual value", "measured value", "measurement", "result", "Istwert", "Ist", "Messwert",
        "Istmaß", "valeur mesurée", "mesure", "cote mesurée", "réel", "valor medido", "medición", "medida",
        "valore misurato",
        "misura", "misurato", "effettivo", "meetwaarde", "gemeten", "werkelijke maat", "測定値", "実測値",
        "测量值", "实测值",
        "实测", "value", "size",
    ),
    "part_code": (
        "part code", "part no", "part number", "code", "tag", "item", "Teilenummer", "référence", "código", "codice",
        "onderdeelnummer", "品番", "部品番号", "零件号", "图号",
    ),
    "part_name": ("part", "part name", "Teil", "pièce", "pieza", "pezzo", "onderdeel", "部品名", "零件名称"),
    "station_name": ("station", "at", "position", "place", "Stelle", "Position", "Messstelle", "point",
        "punto", "位置"),
    "unit": ("unit", "units", "Einheit", "unité", "unidad", "unità", "eenheid", "単位", "单位"),
    "instrument": ("instrument", "with", "tool", "gauge", "Messmittel", "Prüfmittel", "instrumento",
        "strumento", "測定器",
                   "量具"),
    "taken_at": ("taken", "date", "on", "when", "taken at", "Datum", "fecha", "data", "日付", "日期", "datum"),
    "taken_by": ("by", "taken by", "who", "operator", "Prüfer", "opérateur", "operador", "operatore", "測定者",
        "测量人"),
    "note": PART_WORDS["note"],
    "temperature": ("temperature", "temp", "Temperatur", "température", "temperatura", "temperatuur", "温度"),
    "temperature_c": ("°c", "celsius"),
    "value_mm": ("mm", "value mm"),
    "stage": ("stage", "when in its life"),
    "struck": ("struck",),
}  # fmt: skip

#: Of a list of features, what each is to measure: no reading stands in it.
FEATURE_WORDS: dict[str, tuple[str, ...]] = {
    "name": (
        "feature", "feature name", "characteristic", "Merkmal", "Prüfmerkmal", "caractéristique", "característica",
        "caratteristica", "kenmerk", "測定項目", "特征",
    ),
    "spec": (
        "spec", "limits", "tolerance", "nominal", "drawing size", "size to be", "to be", "should be", "wanted", "size",
        "Nennmaß", "Sollmaß", "Toleranz", "cote nominale",
        "tolérance", "tolerancia", "tolleranza", "tolerantie", "公差", "図示寸法", "公称尺寸", "Soll",
    ),
    "part_code": READING_WORDS["part_code"],
    "part_name": READING_WORDS["part_name"],
    "unit": READING_WORDS["unit"],
}  # fmt: skip

#: A row that sums up is no part.
TOTALS = frozenset(
    plain(word)
    for word in (
        "total", "totals", "sum", "subtotal", "sub total", "grand total", "total cost", "Summe", "Gesamt",
        "Gesamtsumme",
        "Zwischensumme", "somme", "suma", "totale", "somma", "totaal", "合計", "小計", "合计", "总计", "小计",
    )
)  # fmt: skip

#: What may stand over a column of nothing but sizes.
LOG_HEADS = frozenset(plain(word) for word in ("", "column 1", *READING_WORDS["typed"], "mm", "in", "log"))
